/** `cabward check`: the audit of a railroad file, and how far each block reaches. */
import { fullAudit } from '../../shared-model/power/audit.ts';
import { brokenReferences } from '../../shared-model/railroad/broken-references.ts';
import type { RailroadDocument } from '../../shared-model/railroad/document.ts';
import { blockExtents, type Extent } from '../../shared-model/railroad/extents.ts';
import { indexRailroad, type Railroad } from '../../shared-model/railroad/railroad.ts';
import { stopsIn } from '../../shared-model/railroad/where-words.ts';
import { type Finding, SEVERITIES } from '../../shared-model/refusal.ts';
import type { Answer } from './answer.ts';
import { readRailroad } from './files.ts';

const findingLines = ({ severity, code, about, says, remedy }: Finding): readonly string[] => [
  `${severity} ${code} (${about.join(', ')})`,
  `  ${says}`,
  `  ${remedy}`,
];

/** A block with its name, and where a head may stop in it: what the other commands and a situation are asked with. */
function extentLine(railroad: Railroad, { id, edges, length, gaps }: Extent): string {
  const stops = stopsIn(railroad, id).map(({ edge, toward }) => `${edge}:${toward}`);
  const parts = [
    `${Number(length.toFixed(1))} mm`,
    `edges ${edges.join(' ') || 'none'}`,
    `gaps ${gaps.join(' ') || 'none'}`,
    `stops ${stops.join(' ') || 'none'}`,
  ];
  return `  ${id}: ${parts.join('; ')}; ${railroad.blocks.get(id)?.name ?? id}`;
}

function summary(findings: readonly Finding[]): string {
  const counts = SEVERITIES.map((severity) => ({
    severity,
    count: findings.filter((finding) => finding.severity === severity).length,
  })).filter(({ count }) => count > 0);
  if (counts.length === 0) return 'Nothing found.';
  const words = { error: 'errors', warning: 'warnings', info: 'for information' };
  return `Found: ${counts.map(({ severity, count }) => `${count} ${count === 1 && severity !== 'info' ? severity : words[severity]}`).join(', ')}.`;
}

/** The answer about a parsed document; while references are broken no block has an extent. */
export function checkAnswer(document: RailroadDocument): Answer {
  const findings = fullAudit(document);
  const railroad = brokenReferences(document).length > 0 ? null : indexRailroad(document);
  const blocks = railroad === null ? [] : blockExtents(railroad);
  const lines = railroad === null ? [] : blocks.map((block) => extentLine(railroad, block));
  const extents = lines.length === 0 ? [] : ['', 'Blocks:', ...lines];
  return {
    exit: findings.some(({ severity }) => severity === 'error') ? 1 : 0,
    json: { findings, blocks },
    text: [...findings.flatMap(findingLines), summary(findings), ...extents].join('\n'),
  };
}

/** Checks a railroad file; exit status 1 when the audit has an error. */
export function check(railroadFile: string): Answer {
  const document = readRailroad(railroadFile);
  return document.ok ? checkAnswer(document.value) : document.answer;
}
