/** The user's guide as it stands in docs/guide, built into the page: help is there without a network. */

export interface Topic {
  /** In the address: `#/help/entry-line`. */
  readonly path: string;
  readonly title: string;
  /** Markdown. */
  readonly text: string;
}

/** The order in which the topics are offered; one that is not named here comes after them. */
const ORDER = [
  'first-evening',
  'entry-line',
  'keys',
  'signs',
  'refusals',
  'drawing-board',
  'wiring-notebook',
  'power-room',
  'rehearsal',
  'logbook',
  'command-line',
  'safety',
  'words',
];

const files: Readonly<Record<string, string>> = import.meta.glob('../../docs/guide/*.md', {
  query: '?raw',
  import: 'default',
  eager: true,
});

const place = (path: string): number => (ORDER.includes(path) ? ORDER.indexOf(path) : ORDER.length);

/** The head of a text and what follows it. */
function parted(path: string, text: string): Topic {
  const [head = '', ...rest] = text.split('\n');
  return { path, title: head.replace(/^#\s*/, ''), text: rest.join('\n') };
}

export const TOPICS: readonly Topic[] = Object.entries(files)
  .map(([file, text]) => parted(file.replace(/^.*\//, '').replace(/\.md$/, ''), text))
  .toSorted((a, b) => place(a.path) - place(b.path) || a.title.localeCompare(b.title));

/** A link of the guide as an address of the page: other topics are screens of ours, what leads outside docs/guide is left out. */
export function topicAddress(href: string): string | null {
  const named = /^(?:\.\/)?([\w-]+)\.md(?:#.*)?$/.exec(href)?.[1];
  return named !== undefined && TOPICS.some(({ path }) => path === named) ? `#/help/${named}` : null;
}

export interface Found {
  readonly topic: Topic;
  /** The first line in which every word stands, without marks of Markdown. */
  readonly line: string;
}

const plain = (line: string): string => line.replace(/[*`|#]|\[(.*?)\]\(.*?\)/g, '$1').trim();

/** The topics with a line in which every word that was typed stands; each once, with that line. */
export function findInHelp(typed: string, topics: readonly Topic[] = TOPICS): readonly Found[] {
  const words = typed
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  if (words.length === 0) return [];
  return topics.flatMap((topic) => {
    const lines = [topic.title, ...topic.text.split('\n')].map(plain);
    const line = lines.find((one) => words.every((word) => one.toLowerCase().includes(word)));
    return line === undefined ? [] : [{ topic, line }];
  });
}
