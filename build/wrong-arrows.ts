/** Finds imports that go against the rules of the house. */
import { existsSync } from 'node:fs';
import { cruise, type ICruiseResult, type IForbiddenRuleType } from 'dependency-cruiser';

const ROOMS = ['shared-model', 'electron', 'renderer', 'tests', 'build'];

export interface WrongArrow {
  readonly rule: string;
  readonly from: string;
  readonly to: string;
  /** The way round, for a circle. */
  readonly round: readonly string[];
}

/**
 * @param base folder in which the rooms lie
 * @param rules what is forbidden
 * @returns every import that a rule forbids, in the order of the files
 */
export async function wrongArrows(base: string, rules: readonly IForbiddenRuleType[]): Promise<WrongArrow[]> {
  const result = await cruise(
    ROOMS.filter((room) => existsSync(`${base}/${room}`)),
    {
      baseDir: base,
      ruleSet: { forbidden: [...rules] },
      validate: true,
      // Imports of types are arrows too.
      tsPreCompilationDeps: true,
      doNotFollow: { path: 'node_modules' },
      enhancedResolveOptions: {
        exportsFields: ['exports'],
        conditionNames: ['import', 'node', 'default', 'types'],
      },
    },
  );
  const { summary } = result.output as ICruiseResult;
  return summary.violations.map(({ rule, from, to, cycle }) => ({
    rule: rule.name,
    from,
    to,
    round: (cycle ?? []).map(({ name }) => name),
  }));
}
