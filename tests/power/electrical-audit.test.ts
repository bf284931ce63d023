/** The electrical findings, code by code, each on the example railroad with one thing changed. */
import { describe, expect, test } from 'vitest';
import { type SupplyId, supplyId } from '../../shared-model/ids.ts';
import { electricalAudit } from '../../shared-model/power/electrical-audit.ts';
import type { PairCheck } from '../../shared-model/power/phase-groups.ts';
import { type RailroadDocument, railroadDocument } from '../../shared-model/railroad/document.ts';
import { indexRailroad } from '../../shared-model/railroad/railroad.ts';
import type { Finding, FindingCode } from '../../shared-model/refusal.ts';
import { passingSidingExample } from '../support/example.ts';

type Loose = ReturnType<typeof structuredClone<RailroadDocument>>;

/** The example with a change, parsed again. */
function changed(change: (document: Loose) => void): RailroadDocument {
  const document = structuredClone(passingSidingExample);
  change(document);
  return railroadDocument.parse(document);
}

const audit = (document: RailroadDocument, checks: readonly PairCheck[] = []) =>
  electricalAudit(indexRailroad(document), checks);
const withCode = (findings: readonly Finding[], code: FindingCode) =>
  findings.filter((each) => each.code === code);
/** The item with this id; a slip in a test is found at once. */
function pick<Thing extends { id: string }>(list: readonly Thing[], id: string): Thing {
  const found = list.find((thing) => thing.id === id);
  if (found === undefined) throw new Error(`no ${id}`);
  return found;
}
const [north, south]: SupplyId[] = ['north', 'south'].map((id) => supplyId.parse(id));
const measured = (voltsAcross: number): PairCheck => {
  if (north === undefined || south === undefined) throw new Error('two supplies');
  return { a: north, b: south, voltsA: 18, voltsB: 18, voltsAcross };
};

describe('gaps where two supplies meet', () => {
  test('are unknown without a check: a warning at each, about the gap and both supplies', () => {
    expect(withCode(audit(passingSidingExample), 'phase-unknown')).toMatchObject([
      { severity: 'warning', about: ['g1', 'north', 'south'] },
      { severity: 'warning', about: ['g2', 'north', 'south'] },
      { severity: 'warning', about: ['g3', 'north', 'south'] },
      { severity: 'warning', about: ['g4', 'north', 'south'] },
    ]);
  });

  test('are silent once the supplies are in phase', () => {
    const findings = audit(passingSidingExample, [measured(0.4)]);
    expect([...withCode(findings, 'phase-unknown'), ...withCode(findings, 'unphased-gap')]).toEqual([]);
  });

  test.each([
    [36, 'Turn one plug over'],
    [31.2, 'No plug reversal cures that'],
  ])('are errors at %d V across, with the remedy', (across, remedy) => {
    const findings = withCode(audit(passingSidingExample, [measured(across)]), 'unphased-gap');
    expect(findings).toHaveLength(4);
    for (const finding of findings) {
      expect(finding.severity).toBe('error');
      expect(finding.remedy).toContain(remedy);
    }
  });

  test('are unknown again when the check lapsed', () => {
    expect(
      withCode(audit(passingSidingExample, [{ ...measured(0.4), lapsed: true }]), 'phase-unknown'),
    ).toHaveLength(4);
  });

  test('are none where one knob feeds both sides, directly or behind a toggle', () => {
    const oneKnob = changed((document) => {
      for (const block of document.blocks) block.source = { selector: pick(document.selectors, 'K1').id };
    });
    expect(withCode(audit(oneKnob), 'phase-unknown')).toEqual([]);
    const behindToggle = railroadDocument.parse({
      ...passingSidingExample,
      toggles: [{ id: 'H1', name: 'Hold 1' }],
      blocks: passingSidingExample.blocks.map((block) =>
        block.id === 'B1' ? { ...block, source: { toggle: 'H1', from: 'B2' } } : block,
      ),
    });
    expect(withCode(audit(behindToggle), 'phase-unknown').map((finding) => finding.about[0])).toEqual([
      'g2',
      'g3',
      'g4',
    ]);
  });

  test('a section behind a toggle inherits the throttles of its root', () => {
    const document = railroadDocument.parse({
      ...passingSidingExample,
      toggles: [{ id: 'H1', name: 'Hold 1' }],
      blocks: passingSidingExample.blocks.map((block) => {
        if (block.id === 'B4') return { ...block, source: { toggle: 'H1', from: 'B3' } };
        return block.id === 'B2' ? { ...block, source: { throttle: '3' } } : block;
      }),
    });
    expect(withCode(audit(document), 'phase-unknown').map((finding) => finding.about[0])).toContain('g4');
  });

  test('direct current has no phase', () => {
    const direct = changed((document) => {
      document.system = 'two-rail-dc';
    });
    expect(withCode(audit(direct, [measured(36)]), 'unphased-gap')).toEqual([]);
    expect(withCode(audit(direct), 'phase-unknown')).toEqual([]);
  });
});

describe('overload', () => {
  test('is silent at the limit: 8 A through 8 A', () => {
    const atLimit = changed((document) => {
      pick(document.trains, 't7').amps = 8;
      pick(document.trains, 't12').amps = 2;
    });
    expect(withCode(audit(atLimit), 'overload')).toEqual([]);
  });

  test('is a warning for each throttle and contact that the hungriest train overloads', () => {
    const hungry = changed((document) => {
      pick(document.trains, 't7').amps = 8.1;
      pick(document.trains, 't12').amps = 1;
      pick(document.throttles, '3').maxAmps = 9;
      pick(document.selectors, 'K2').contactAmps = 9;
    });
    expect(withCode(audit(hungry), 'overload')).toMatchObject([
      { severity: 'warning', about: ['1', 't7'] },
      { about: ['2', 't7'] },
      { about: ['K1', 't7'] },
      { about: ['K3', 't7'] },
    ]);
  });

  test('adds the hungriest trains, one a throttle, against the VA of the supply at its volts', () => {
    const crowded = changed((document) => {
      pick(document.trains, 't7').amps = 6;
      pick(document.trains, 't12').amps = 4.1;
    });
    expect(withCode(audit(crowded), 'overload')).toMatchObject([
      {
        about: ['north', 't7', 't12'],
        says: expect.stringContaining('10.1 A together; 180 VA at 18 V is 10 A'),
      },
    ]);
  });

  test('a contact that no throttle is wired to carries nothing', () => {
    const unwired = changed((document) => {
      pick(document.selectors, 'K1').positions = ['off', null];
      pick(document.selectors, 'K1').contactAmps = 1;
      document.blocks = document.blocks.filter((block) => block.id !== 'B1');
    });
    expect(withCode(audit(unwired), 'overload')).toEqual([]);
  });
});

describe('a dial with two throttles side by side', () => {
  const dial = (change: Partial<RailroadDocument['selectors'][number]>) =>
    withCode(
      audit(
        changed((document) => {
          document.selectors = document.selectors.map((selector) =>
            selector.id === 'K1'
              ? { ...selector, ...change }
              : { ...selector, contacts: 'break-before-make' as const },
          );
        }),
      ),
      'shorting-selector',
    );
  const [one, two] = passingSidingExample.throttles.map((throttle) => throttle.id);
  if (one === undefined || two === undefined) throw new Error('the example has three throttles');

  test('is an error if it makes before it breaks, information if nobody knows, and fine otherwise', () => {
    expect(dial({ contacts: 'make-before-break' })).toMatchObject([
      { severity: 'error', about: ['K1', '1', '2'] },
    ]);
    expect(dial({ contacts: 'unknown' })).toMatchObject([{ severity: 'info', about: ['K1', '1', '2'] }]);
    expect(dial({})).toMatchObject([{ severity: 'info' }]);
    expect(dial({ contacts: 'break-before-make' })).toEqual([]);
  });

  test('is parted by an off or an unwired position', () => {
    expect(dial({ contacts: 'make-before-break', positions: [one, null, two] })).toEqual([]);
    expect(dial({ contacts: 'make-before-break', positions: [one, 'off', two] })).toEqual([]);
    expect(dial({ contacts: 'make-before-break', positions: ['off', one, one] })).toEqual([]);
  });

  test('goes round where it has no stops', () => {
    const positions = [one, 'off' as const, two];
    expect(dial({ contacts: 'make-before-break', positions, stops: false })).toMatchObject([
      { severity: 'error', about: ['K1', '2', '1'] },
    ]);
  });
});

describe('two-rail throttles on one common rail', () => {
  const twoRail = (isolated: readonly string[], bus = true) =>
    withCode(
      audit(
        changed((document) => {
          document.system = 'two-rail-dc';
          for (const supply of document.supplies) if (isolated.includes(supply.id)) supply.isolated = true;
          if (!bus) delete document.commonBus;
        }),
      ),
      'shared-return',
    );

  test('are an error unless their supplies are said to be isolated', () => {
    expect(twoRail([])).toMatchObject([{ severity: 'error', about: ['north', 'south', '1', '2', '3'] }]);
    expect(twoRail(['north', 'south'])).toEqual([]);
  });

  test('one that is not isolated among isolated ones does no harm', () => {
    expect(twoRail(['north'])).toEqual([]);
  });

  test('are not judged where no common bus is given, and three-rail is never', () => {
    expect(twoRail([], false)).toEqual([]);
    expect(withCode(audit(passingSidingExample), 'shared-return')).toEqual([]);
  });
});

describe('wire', () => {
  const wired = (change: (document: Loose) => void) =>
    audit(changed(change)).filter(({ code }) =>
      ['undersized-wire', 'voltage-drop', 'slow-trip'].includes(code),
    );
  const feederOf = (document: Loose, id: string) => {
    const [feeder] = pick(document.blocks, id).feeders;
    if (feeder === undefined) throw new Error(`block ${id} has no feeder`);
    return feeder;
  };

  test('of the example is heavy enough', () => {
    expect(wired(() => {})).toEqual([]);
  });

  test('is undersized behind a breaker above the cap of its gauge, about the block, the edge and the supplies', () => {
    const findings = wired((document) => {
      feederOf(document, 'B1').wire = { awg: 18, run: 1000 };
    });
    expect(findings).toMatchObject([
      { code: 'undersized-wire', severity: 'error', about: ['B1', 'e1', 'north', 'south'] },
    ]);
  });

  test('names only the supplies whose breaker is too large', () => {
    const findings = wired((document) => {
      feederOf(document, 'B1').wire = { awg: 18, run: 1000 };
      pick(document.supplies, 'north').breakerAmps = 7;
    });
    expect(findings).toMatchObject([{ severity: 'error', about: ['B1', 'e1', 'south'] }]);
    expect(findings[0]?.says).toContain('from South bench');
  });

  test('may end in a short light piece, with a warning', () => {
    const findings = wired((document) => {
      feederOf(document, 'B1').wire = [
        { awg: 14, run: 3000 },
        { awg: 20, run: 200 },
      ];
    });
    expect(findings).toMatchObject([
      { code: 'undersized-wire', severity: 'warning', about: ['B1', 'e1', 'north', 'south'] },
    ]);
  });

  test('a light common bus is undersized too, and named', () => {
    const findings = wired((document) => {
      document.commonBus = { awg: 20, run: 1000 };
    });
    expect(findings).toMatchObject([
      { code: 'undersized-wire', severity: 'error', about: ['north', 'south'] },
    ]);
    expect(findings[0]?.says).toContain('The common bus');
  });

  test('drops too much for the hungriest train, stalled if that is given', () => {
    const long = (document: Loose) => {
      feederOf(document, 'B4').wire = { awg: 16, run: 18_000 };
    };
    // 3.2 A × (18 m × 13.17 ohm/km + 6 m × 5.21 ohm/km) = 0.86 V, 4.8 % of 18 V; stalled at 5 A it is 1.34 V, 7.5 %.
    expect(wired(long)).toEqual([]);
    const stalled = wired((document) => {
      long(document);
      pick(document.trains, 't7').stallAmps = 5;
    });
    expect(stalled).toMatchObject([
      { code: 'voltage-drop', severity: 'warning', about: ['B4', 'e8', 'south'] },
    ]);
    expect(stalled[0]?.says).toContain('1.34 V is lost, 7.5 % of 18 V');
    expect(stalled[0]?.says).toContain('rail and joints not counted');
  });

  test('counts the rail to the far end where its resistance is given', () => {
    const findings = wired((document) => {
      feederOf(document, 'B4').wire = { awg: 16, run: 18_000 };
      document.railOhmsPerMetre = 0.05;
    });
    // 0.9 m of rail from the middle of e8 add 3.2 A × 0.045 ohm = 0.14 V: 5.6 %.
    const far = withCode(findings, 'voltage-drop').find((finding) => finding.about[0] === 'B4');
    expect(far?.says).toContain('5.6 % of 18 V');
    expect(far?.says).not.toContain('not counted');
  });

  test('lets a dead short fall below twice the breaker, and says when it may never open', () => {
    // 18 V / (0.2 + 5.4 m × 8.29 ohm/km + 6 m × 5.21 ohm/km) = 65 A; with 1 ohm inside the supply 16.7 A, with 1.3 ohm 13.1 A.
    const weak = (ohms: number) =>
      wired((document) => {
        pick(document.supplies, 'south').impedanceOhms = ohms;
      }).filter((finding) => finding.about[0] === 'B4');
    expect(weak(0.7)).toEqual([]);
    expect(weak(1)).toMatchObject([{ code: 'slow-trip', severity: 'error', about: ['B4', 'e8', 'south'] }]);
    expect(weak(1)[0]?.says).toContain('may take minutes');
    expect(weak(1.3)[0]?.says).toContain('may never open');
  });

  test('is not judged where it is not given', () => {
    const findings = wired((document) => {
      for (const block of document.blocks) for (const feeder of block.feeders) delete feeder.wire;
      pick(document.supplies, 'south').impedanceOhms = 5;
    });
    expect(findings).toEqual([]);
  });

  test('without a common bus judges the feeder alone and says so', () => {
    const findings = wired((document) => {
      delete document.commonBus;
      feederOf(document, 'B4').wire = { awg: 18, run: 30_000 };
      pick(document.supplies, 'south').breakerAmps = 7;
    });
    // 3.2 A × 30 m × 20.95 ohm/km = 2.01 V: 11.2 %.
    const drop = withCode(findings, 'voltage-drop');
    expect(drop).toMatchObject([{ about: ['B4', 'e8', 'south'] }]);
    expect(drop[0]?.says).toContain('11.2 % of 18 V');
    expect(drop[0]?.says).toContain('the return, rail and joints not counted');
  });
});
