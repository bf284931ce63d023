/**
 * Which file may look at which: the arrows of the house as rules for dependency-cruiser.
 *
 * `renderer → shared-model ← electron`; inside shared-model `railroad ← power ← session ← planning, logbook, demo ← wire`; nothing goes round in a circle.
 */
import type { IForbiddenRuleType } from 'dependency-cruiser';

/** Every room, and whom it may look at besides itself. Tests and build may look at anything, and nothing looks at them. */
export const ROOM_ARROWS = {
  'shared-model': [],
  electron: ['shared-model'],
  renderer: ['shared-model'],
} as const;

/** The layers of shared-model from the ground up; the files beside the folders are below all of them. */
export const MODEL_LAYERS: readonly (readonly string[])[] = [
  ['railroad'],
  ['power'],
  ['session'],
  ['planning', 'logbook', 'demo'],
  ['wire'],
];

/** Who inside electron may look at whom: the host knows none of its ways in, and the page with its headers is the web's. */
export const ELECTRON_ARROWS = {
  host: [],
  web: ['host'],
  desktop: ['host', 'web'],
  'command-line': ['host', 'web'],
} as const;

const rule = (name: string, comment: string, from: object, to: object): IForbiddenRuleType =>
  ({ name, comment, severity: 'error', from, to }) as IForbiddenRuleType;

const OWN_FILES = '^(shared-model|electron|renderer|tests|build)/';

const roomRules = Object.entries(ROOM_ARROWS).map(([room, mayUse]) =>
  rule(
    `${room}-looks-away`,
    `${room} may look at ${mayUse.length === 0 ? 'nothing outside' : mayUse.join(', ')}`,
    { path: `^${room}/` },
    { path: OWN_FILES, pathNot: `^(${[room, ...mayUse].join('|')})/` },
  ),
);

const modelRules = MODEL_LAYERS.flatMap((level, height) =>
  level.map((layer) => {
    const below = MODEL_LAYERS.slice(0, height).flat();
    return rule(
      `${layer}-looks-up`,
      `shared-model/${layer} may look at ${below.length === 0 ? 'no layer' : below.join(', ')}`,
      { path: `^shared-model/${layer}/` },
      { path: '^shared-model/[^/]+/', pathNot: `^shared-model/(${[layer, ...below].join('|')})/` },
    );
  }),
);

const electronRules = Object.entries(ELECTRON_ARROWS).map(([part, mayUse]) =>
  rule(
    `${part}-looks-aside`,
    `electron/${part} may look at ${mayUse.length === 0 ? 'no other part' : mayUse.join(', ')}`,
    { path: `^electron/${part}/` },
    { path: '^electron/[^/]+/', pathNot: `^electron/(${[part, ...mayUse].join('|')})/` },
  ),
);

export const LAYER_RULES: readonly IForbiddenRuleType[] = [
  rule('circle', 'no file needs itself, by whatever way round', {}, { circular: true }),
  rule('not-there', 'an import leads to a file', {}, { couldNotResolve: true }),
  ...roomRules,
  ...modelRules,
  rule(
    'ground-looks-up',
    'a file beside the layers of shared-model is below all of them',
    { path: '^shared-model/[^/]+\\.ts$' },
    { path: '^shared-model/[^/]+/' },
  ),
  ...electronRules,
  rule(
    'model-is-pure',
    'shared-model uses no part of Node',
    { path: '^shared-model/' },
    { dependencyTypes: ['core'] },
  ),
  rule(
    'model-uses-few-packages',
    'shared-model uses the schema library, the machines and a queue, and no other package',
    { path: '^shared-model/' },
    { path: 'node_modules/', pathNot: 'node_modules/(zod|xstate|tinyqueue)/' },
  ),
  rule(
    'one-door-to-zod',
    'everybody imports z from shared-model/zod.ts, which sets it up before the first parse',
    { path: '^(shared-model|electron|renderer)/', pathNot: '^shared-model/zod\\.ts$' },
    { path: 'node_modules/zod/' },
  ),
  rule(
    'screens-without-node',
    'the renderer uses no part of Node',
    { path: '^renderer/' },
    { dependencyTypes: ['core'] },
  ),
  rule(
    'electron-in-desktop-alone',
    'only electron/desktop may import electron: it cannot be imported in Node',
    { path: '^(shared-model|renderer|electron)/', pathNot: '^electron/desktop/' },
    { path: 'node_modules/electron/' },
  ),
];
