/** Lines that begin with a word: stop, phase, new, clock, note and the like, and those of authorities and tags. */
import type { SettingId, SupplyId, ThrottleId, TrainId } from '../../../shared-model/ids.ts';
import type { SessionInput } from '../../../shared-model/session/input.ts';
import { asShown } from '../as-shown.ts';
import { authorityForms } from './authority-forms.ts';
import { type Form, form, plainForm } from './form.ts';
import { lastRetractable } from './last-report.ts';
import { send } from './reading.ts';
import type { Said } from './said.ts';
import { maybe, name, number, type Slot, text, thing, train, word } from './slots.ts';
import { placed } from './stands-forms.ts';
import { tagForms } from './tag-forms.ts';
import { why, whyOf } from './why.ts';

const SUPPLY_WORDS = {
  trip: ['breaker-tripped', "'s breaker tripped"],
  reset: ['breaker-reset', "'s breaker is reset"],
  replug: ['supply-replugged', ' was replugged'],
} as const;
const supply = thing('supply', ['supply'], 'a supply');

const supplyForms = (Object.keys(SUPPLY_WORDS) as (keyof typeof SUPPLY_WORDS)[]).map((verb): Form => {
  const [does, says] = SUPPLY_WORDS[verb];
  return plainForm([word(verb), supply], (said) => ({
    says: `${said.thing('supply').label}${says}`,
    input: { do: does, supply: said.id<SupplyId>('supply') },
  }));
});

const phase = plainForm(
  [
    word('phase'),
    thing('a', ['supply'], 'a supply'),
    thing('b', ['supply'], 'the other supply'),
    number('voltsA', 'volts of the first', 'V'),
    number('voltsB', 'volts of the other', 'V'),
    number('voltsAcross', 'volts across', 'V'),
  ],
  (said) => ({
    says: `measured: ${said.thing('a').label} against ${said.thing('b').label}`,
    input: {
      do: 'phase-measured',
      a: said.id<SupplyId>('a'),
      b: said.id<SupplyId>('b'),
      voltsA: said.number('voltsA'),
      voltsB: said.number('voltsB'),
      voltsAcross: said.number('voltsAcross'),
    },
  }),
);

/** `new 88 guest 900 2.5`: the number gives the id, number and name together the name; without a number the first word is the id. */
const newTrain = form(
  [
    word('new'),
    name('number', 'the number of the train, or its name'),
    maybe(text('name', 'its name')),
    number('length', 'its length', 'mm'),
    number('amps', 'its current', 'A'),
  ],
  (said, { railroad, state }) => {
    const typed = said.text('number');
    const isNumber = /^\d+$/.test(typed);
    const called = [isNumber ? `No. ${typed}` : typed, ...(said.has('name') ? [said.text('name')] : [])].join(
      ' ',
    );
    const taken = new Set<string>([
      ...Object.keys(state.trains),
      ...(
        [
          'nodes',
          'edges',
          'throttles',
          'selectors',
          'toggles',
          'blocks',
          'supplies',
          'places',
          'settings',
        ] as const
      ).flatMap((list) => railroad.document[list].map(({ id }): string => id)),
    ]);
    const ids = [...(isNumber ? [`t${typed}`] : [typed.toLowerCase()]), `guest-${typed.toLowerCase()}`];
    const id = ids.find((one) => !taken.has(one));
    if (id === undefined) return `There is a train ${typed} already.`;
    return [
      send(`${called} for tonight: ${said.number('length')} mm, ${said.number('amps')} A`, {
        do: 'add-train',
        train: id as TrainId,
        name: called,
        length: said.number('length'),
        amps: said.number('amps'),
      }),
    ];
  },
);

const time: Slot = { is: 'time', as: 'time', what: 'the railroad time now, 6:42' };
const ratio = number('ratio', 'how many times as fast', 'times');
const clockInput = (said: Said): { readonly says: string; readonly input: SessionInput } => ({
  says: `railroad time, ${said.number('ratio')} to 1`,
  input: { do: 'set-clock', ratio: said.number('ratio'), minutes: said.number('time') },
});
const clockForms: readonly Form[] = [
  plainForm([word('clock'), time, ratio], clockInput),
  plainForm([word('clock'), ratio, time], clockInput),
  plainForm([word('clock'), word('off')], () => ({
    says: 'no railroad time',
    input: { do: 'set-clock', ratio: 0, minutes: 0 },
  })),
];

const retract = form(
  [word('retract'), maybe(number('entry', 'the number of the entry', 'entry')), why],
  (said, { recent }) => {
    const entry = said.has('entry') ? said.number('entry') : lastRetractable(recent)?.entry;
    return entry === undefined
      ? 'There is nothing to take back.'
      : [send(`take back entry ${entry}`, { do: 'retract', entry, why: whyOf(said, 'typed by mistake') })];
  },
);

const seen = form(
  [word('seen'), maybe(number('alarm', 'the number of the alarm', 'entry'))],
  (said, { state }) => {
    const alarm = said.has('alarm') ? said.number('alarm') : state.alarms.find((one) => !one.seen)?.entry;
    return alarm === undefined ? 'No alarm is unseen.' : [send('alarm seen', { do: 'alarm-seen', alarm })];
  },
);

/** Every handle at zero, as it is asked after a stop and when everybody goes home. */
const allAtZero = form([word('zero')], (_, { railroad, state }) => {
  const cabs = railroad.document.throttles.filter(({ id }) => state.cabs[id]?.person != null);
  return cabs.length === 0
    ? 'Nobody has a cab.'
    : [
        send(
          'all handles are at zero',
          ...cabs.map(({ id }): SessionInput => ({ do: 'handle-at-zero', cab: id })),
        ),
      ];
});

const shown = form([word('as'), word('shown')], (_, { state }) => {
  const reports = asShown(state);
  return reports.length === 0
    ? 'Every knob was thrown or looked at tonight.'
    : [send(`${reports.length} knobs stand as shown`, ...reports)];
});

const stageForms: readonly Form[] = [
  plainForm([word('stop'), why], (said) => ({
    says: 'CALL ALL STOP',
    input: { do: 'stop-all', why: whyOf(said, 'called'), kind: 'emergency' },
  })),
  plainForm([word('break'), why], (said) => ({
    says: 'a break: all stop',
    input: { do: 'stop-all', why: whyOf(said, 'a break'), kind: 'break' },
  })),
  plainForm([word('resume')], () => ({ says: 'run again', input: { do: 'resume' } })),
  plainForm([word('start')], () => ({ says: 'start the evening', input: { do: 'start' } })),
  plainForm([word('end')], () => ({ says: 'end the evening', input: { do: 'end-session' } })),
];

const plainWords: readonly Form[] = [
  plainForm([word('withdraw'), train()], (said) => ({
    says: `${said.thing('train').label} withdraws its ask`,
    input: { do: 'withdraw', train: said.id<TrainId>('train') },
  })),
  plainForm([word('setting'), thing('setting', ['setting'], 'a saved setting')], (said) => ({
    says: `set the knobs to: ${said.thing('setting').label}`,
    input: { do: 'apply-setting', setting: said.id<SettingId>('setting') },
  })),
  plainForm([word('call'), thing('cab', ['cab'], 'a cab')], (said) => ({
    says: `${said.thing('cab').label} calls`,
    input: { do: 'call', cab: said.id<ThrottleId>('cab') },
  })),
  plainForm([word('note'), text('text', 'the note')], (said) => ({
    says: 'note it',
    input: { do: 'note', text: said.text('text') },
  })),
  form([word('why'), maybe(thing('about', ['train', 'block'], 'a train or a block'))], (said) => [
    {
      says: 'say why',
      act: { kind: 'why', about: said.has('about') ? said.id('about') : null },
    },
  ]),
];

/** What is done with the plan that is carried out. */
const planForms: readonly Form[] = (
  [
    ['aside', 'put the plan aside'],
    ['on', 'go on with the plan'],
    ['again', 'plan again from here'],
  ] as const
).map(([does, says]) => form([word('plan'), word(does)], () => [{ says, act: { kind: 'plan', does } }]));

export const wordForms: readonly Form[] = [
  ...authorityForms,
  ...tagForms,
  placed,
  ...supplyForms,
  phase,
  newTrain,
  ...clockForms,
  retract,
  seen,
  allAtZero,
  shown,
  ...stageForms,
  ...plainWords,
  ...planForms,
];
