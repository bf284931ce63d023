/** Ten faults planted in one railroad and its evening: each is found, at its place, and there is a safe way out of it. */
import { describe, expect, test } from 'vitest';
import { fullAudit } from '../../shared-model/power/audit.ts';
import { railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { FindingCode, RefusalCode } from '../../shared-model/refusal.ts';
import { type Evening, newEvening, take } from '../../shared-model/session/evening.ts';
import { type SessionInput, sessionInput } from '../../shared-model/session/input.ts';
import passingSiding from '../support/passing-siding.railroad.json' with { type: 'json' };

/** The example, with what an owner might really have done to it. */
const railroad = railroadDocument.parse({
  ...passingSiding,
  // 1. A gap is missing at j1: the spur has a feeder of its own on the east end's section.
  nodes: [...passingSiding.nodes, { id: 'j1', kind: 'joint', at: [25, 2] }],
  edges: [
    ...passingSiding.edges.filter(({ id }) => id !== 'e8'),
    { id: 'e8', between: ['g4', 'j1'], length: 900 },
    { id: 'e9', between: ['j1', 'n2'], length: 900 },
  ],
  // 2. The breaker of the south bench does not open on a short at the far end: too much impedance and wire before it.
  supplies: passingSiding.supplies.map((supply) =>
    supply.id === 'south' ? { ...supply, impedanceOhms: 1 } : supply,
  ),
  // 3. Dial 1 makes before it breaks. 4. The contacts of dial 2 carry less than the hungriest train.
  selectors: [
    ...passingSiding.selectors.map((selector) => {
      if (selector.id === 'K1') return { ...selector, contacts: 'make-before-break' };
      return selector.id === 'K2' ? { ...selector, contactAmps: 3 } : selector;
    }),
    { id: 'K4', name: '4', positions: ['off', '3'], stops: true, contactAmps: 8 },
    { id: 'K5', name: '5', positions: ['off', '3'], stops: true, contactAmps: 8 },
  ],
  blocks: [
    ...passingSiding.blocks.map((block) =>
      block.id === 'B4' ? { ...block, source: { selector: 'K4' } } : block,
    ),
    { id: 'B5', name: 'Spur', source: { selector: 'K5' }, feeders: [{ edge: 'e9' }] },
  ],
  // 5. The shared return is bell wire.
  commonBus: { awg: 20, run: 6000 },
  trains: [
    { id: 't7', name: 'No. 7', length: 2200, amps: 3.2 },
    { id: 't12', name: 'No. 12', length: 1400, amps: 2.8 },
  ],
});

// 6. The plug of the south bench is turned.
const turnedPlug = { a: 'north', b: 'south', voltsA: 18, voltsB: 18, voltsAcross: 36 };

describe('what the audit finds', () => {
  const check = sessionInput.parse({ do: 'phase-measured', ...turnedPlug });
  if (check.do !== 'phase-measured') throw new Error('a phase check');
  const findings = fullAudit(railroad, [check]);

  test.each<readonly [string, FindingCode, readonly string[], RegExp]>([
    ['a missing gap', 'two-sources', ['B4', 'B5'], /gap/i],
    ['a breaker that will not open', 'slow-trip', ['B4', 'e8', 'south'], /heavier wire or a smaller breaker/],
    ['a shorting dial', 'shorting-selector', ['K1', '1', '2'], /breaks before it makes/],
    ['an overloaded contact', 'overload', ['K2', 't7'], /heavier contacts/],
    ['a bus of AWG 20', 'undersized-wire', ['north', 'south'], /AWG 16 or heavier/],
    ['a reversed plug', 'unphased-gap', ['g4', 'north', 'south'], /Unplug both.*Never cut a blade/],
  ])('%s: %s about %j', (_, code, about, remedy) => {
    const found = findings.find(
      (finding) => finding.code === code && about.every((id) => finding.about.includes(id)),
    );
    expect(found?.severity).toBe(code === 'overload' ? 'warning' : 'error');
    expect(found?.remedy).toMatch(remedy);
  });
});

/** Begins the evening: No. 7 stands across g1 on cab 1, No. 12 in the siding without a cab. 7. Dial 4 is dead, and tagged. */
const beginning: readonly Record<string, unknown>[] = [
  { do: 'open-session', alone: true },
  { do: 'assign-cab', cab: '1', person: 'Avery' },
  { do: 'phase-measured', ...turnedPlug },
  { do: 'place-train', train: 't7', edge: 'e1', toward: 'n1', cab: '1' },
  { do: 'place-train', train: 't12', edge: 'e5', toward: 'g3' },
  { do: 'tag', thing: 'K4', why: 'dead contact', by: 'Kim' },
  { do: 'start' },
  { do: 'turn-selector', selector: 'K1', position: '1' },
  { do: 'turn-selector', selector: 'K2', position: '1' },
];

function say(evening: Evening, given: Record<string, unknown>) {
  const input: SessionInput = sessionInput.parse(given);
  return take(evening, { at: evening.state.entries, input });
}
const eveningWith = (...given: readonly Record<string, unknown>[]): Evening =>
  given.reduce<Evening>((evening, each) => say(evening, each).evening, newEvening(indexRailroad(railroad)));

describe('what the evening finds', () => {
  test('a tail on a gap: its far side is not turned to the other supply; once it is, the alarm stands until it is turned back', () => {
    const evening = eveningWith(...beginning);
    const refused = say(evening, { do: 'turn-selector', selector: 'K2', position: '3' });
    expect(refused.event.outcome).toBe('refused');
    const reason = refused.event.reasons.find(({ code }) => code === 'unphased-gap');
    expect(reason?.about).toEqual(['g1', 'north', 'south']);
    expect(reason?.says).toContain('NEM 609');

    const wrong = say(evening, { do: 'selector-stands-at', selector: 'K2', position: '3' });
    expect(wrong.event.reasons.map(({ code, about }) => [code, ...about])).toContainEqual(['bridging', 'g1']);
    const back = say(wrong.evening, { do: 'turn-selector', selector: 'K2', position: 'off' });
    expect(back.event.outcome).toBe('done');
    expect(back.evening.state.alarms.map(({ code }) => code)).not.toContain('bridging');
  });

  test('two trains on one knob: the second would start too; with its knob off it does not', () => {
    const evening = eveningWith(
      ...beginning,
      { do: 'turn-selector', selector: 'K3', position: '1' },
      { do: 'train-at', train: 't7', edge: 'e2', toward: 'g1' },
    );
    const ask = { do: 'request-move', train: 't7', to: 'B1', overhang: true };
    const reasons = say(evening, ask).event.reasons.map(({ code, about }) => [code, ...about]);
    expect(reasons).toContainEqual(['second-train-live', 'K3', 't12']);
    const off = say(evening, { do: 'turn-selector', selector: 'K3', position: 'off' }).evening;
    expect(say(off, ask).event.outcome).toBe('done');
  });

  test('a dead selector: nothing is granted over it until the tag is off', () => {
    const evening = eveningWith(...beginning, { do: 'train-at', train: 't7', edge: 'e7', toward: 'g4' });
    const reasons = say(evening, { do: 'request-move', train: 't7', to: 'B4', overhang: true }).event.reasons;
    expect(reasons.map(({ code, about }) => [code, ...about])).toContainEqual(['out-of-service', 'K4']);
    expect(evening.state.tags).toMatchObject([{ thing: 'K4', why: 'dead contact', by: 'Kim' }]);
  });

  test('a presumed knob: it is told apart until somebody has looked at it', () => {
    const evening = eveningWith(...beginning);
    const presumed = Object.entries(evening.state.selectors).filter(([, knob]) => knob.presumed);
    expect(presumed.map(([id]) => id)).toEqual(['K3', 'K4', 'K5']);
    const looked = say(evening, { do: 'selector-stands-at', selector: 'K3', position: 'off' }).evening;
    expect(looked.state.selectors['K3' as keyof typeof looked.state.selectors]?.presumed).toBe(false);
  });
});

describe('in the one railroad and its evening', () => {
  /** One question after the beginning, and the reasons against it. */
  const against = (...given: readonly Record<string, unknown>[]) => {
    const question = given.at(-1) ?? {};
    return say(eveningWith(...beginning, ...given.slice(0, -1)), question).event.reasons;
  };
  const turned = { do: 'turn-selector', selector: 'K3', position: '1' };

  test('all ten are found, each with its place and a remedy that puts nobody at risk', () => {
    const evening = eveningWith(...beginning, turned);
    const audit = fullAudit(railroad, evening.state.checks);
    const reasons = [
      ...against(turned, { do: 'turn-selector', selector: 'K2', position: '3' }),
      ...against(
        turned,
        { do: 'train-at', train: 't7', edge: 'e2', toward: 'g1' },
        { do: 'request-move', train: 't7', to: 'B1', overhang: true },
      ),
      ...against(
        turned,
        { do: 'train-at', train: 't7', edge: 'e7', toward: 'g4' },
        { do: 'request-move', train: 't7', to: 'B4', overhang: true },
      ),
    ];
    const foundBy = (code: string, place: string) =>
      [...audit, ...reasons].filter(
        (one) => one.code === code && (one.about as readonly string[]).includes(place),
      );
    const ten: readonly (readonly [fault: string, code: FindingCode | RefusalCode, place: string])[] = [
      ['a missing gap', 'two-sources', 'B5'],
      ['a shorting dial', 'shorting-selector', 'K1'],
      ['a tail on a gap', 'unphased-gap', 'g1'],
      ['two trains on one knob', 'second-train-live', 'K3'],
      ['a dead selector', 'out-of-service', 'K4'],
      ['a reversed plug', 'unphased-gap', 'g4'],
      ['a bus of AWG 20', 'undersized-wire', 'north'],
      ['a breaker that will not open', 'slow-trip', 'e8'],
      ['an overloaded contact', 'overload', 'K2'],
    ];
    expect(ten.filter(([, code, place]) => foundBy(code, place).length === 0)).toEqual([]);
    // The tenth, a presumed knob, is found at the knob itself, and the remedy is to go and look at it.
    expect(evening.state.selectors).toMatchObject({ K5: { presumed: true }, K3: { presumed: false } });
    for (const [fault, code, place] of ten)
      for (const found of foundBy(code, place)) {
        expect(found.says, fault).toMatch(/[.)]$/);
        // What may be done about it names no larger breaker or fuse, no override, no adapter, no cut plug.
        const remedy = 'remedy' in found ? found.remedy : found.says;
        expect(remedy, fault).not.toMatch(
          /larger (breaker|fuse)|override|(?<!Never )cut a blade|(?<!never )use an adapter/i,
        );
        expect(remedy, fault).not.toBe('');
      }
  });

  test('"off", the way out that is safe for each knob, is never refused', () => {
    const evening = eveningWith(...beginning, turned);
    for (const selector of ['K1', 'K2', 'K3', 'K4', 'K5'])
      expect(
        say(evening, { do: 'turn-selector', selector, position: 'off' }).event.outcome,
        selector,
      ).not.toBe('refused');
  });
});
