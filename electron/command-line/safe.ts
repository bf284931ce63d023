/** `cabward safe`: whether every train of a situation can still get where it is to end up. */
import { USUAL_MEGABYTES } from '../../shared-model/planning/memory.ts';
import { safe as decide, type SafeVerdict } from '../../shared-model/planning/safe.ts';
import type { Answer } from './answer.ts';
import { readSituation } from './situation-file.ts';

function inWords({ verdict, witness, locked, states, isFull }: SafeVerdict): string {
  const effort = `(${states} states looked at)`;
  if (verdict === 'safe')
    return [
      'Safe: this order brings every train to its destination.',
      ...(witness ?? []).map(({ train, to }) => `  ${train} to ${to}`),
    ].join('\n');
  if (verdict === 'gridlock')
    return `Gridlock: ${locked?.trains.join(', ') ?? ''} lock each other in ${locked?.blocks.join(', ') ?? ''}. ${effort}`;
  const limit = isFull === true ? `the ${USUAL_MEGABYTES} MB that it may keep` : 'the effort';
  return `Undecided within ${limit}. ${effort}`;
}

/** Exit status 1 for gridlock and for undecided. */
export function safe(railroadFile: string, situationFile: string): Answer {
  const read = readSituation(railroadFile, situationFile);
  if (!read.ok) return read.answer;
  const answer = decide(read.value.railroad, read.value.situation);
  const { isFull: _, ...json } = answer;
  return { exit: answer.verdict === 'safe' ? 0 : 1, json, text: inWords(answer) };
}
