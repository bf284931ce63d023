/** Unusual events of an evening, with the trains concerned: alarms, overrides, stops, derailments, tags, notes. */
import type { Railroad } from '../railroad/railroad.ts';
import type { Seconds } from '../units.ts';
import { trainOf, trainOfReason } from './concerned.ts';
import { eventWords } from './event-words.ts';
import type { EveningReader } from './pass.ts';

export interface Unusual {
  readonly entry: number;
  readonly at: Seconds;
  readonly says: string;
  readonly trains: readonly string[];
}

const UNUSUAL: ReadonlySet<string> = new Set([
  'override',
  'stop-all',
  'resume',
  'stalled',
  'derailed',
  'rerailed',
  'breaker-tripped',
  'breaker-reset',
  'stop-called',
  'tag',
  'untag',
  'settle',
  'note',
]);

export function unusualReader(railroad: Railroad): EveningReader & { readonly unusual: readonly Unusual[] } {
  const unusual: Unusual[] = [];
  return {
    unusual,
    take: ({ after, event, counts }) => {
      const { outcome, input, entry, at, reasons } = event;
      const strange = outcome === 'alarm' || (outcome === 'done' && UNUSUAL.has(input.do));
      if (!strange || !counts) return;
      const about = reasons.flatMap((reason) => reason.about).filter((id) => id in after.trains);
      const concerned = [
        trainOf(after, input),
        ...reasons.map((one) => trainOfReason(after, event, one)),
        ...about,
      ];
      const trains = [...new Set(concerned.filter((train) => train !== null))];
      const why = reasons.map(({ code, says: because }) => ` ${code}: ${because}`).join('');
      const words = eventWords(railroad, after, event);
      const says = `${words}${/[.?!]$/.test(words) ? '' : '.'}${why}`;
      unusual.push({ entry, at, trains, says });
    },
  };
}
