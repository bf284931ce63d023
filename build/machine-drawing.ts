/** Draws the machines of the rules, from the machines themselves. */
import type { AnyStateMachine } from 'xstate';
import * as machines from '../shared-model/session/machines.ts';

interface Edge {
  readonly from: string;
  readonly to: string;
  readonly event: string;
}

/** Every edge of a flat machine; one without a target of its own stays where it is. */
function edgesOf(machine: AnyStateMachine): Edge[] {
  return Object.entries(machine.states).flatMap(([from, state]) =>
    Object.entries(state.on).flatMap(([event, transitions]) =>
      transitions.map(({ target }) => ({ from, to: target?.[0]?.key ?? from, event })),
    ),
  );
}

/** Mermaid wants names without hyphens; the label keeps the name. */
const nameOf = (state: string): string => state.replaceAll('-', '_');

function drawMachine(machine: AnyStateMachine): string[] {
  const edges = edgesOf(machine);
  const names = Object.keys(machine.states);
  const first = String(machine.root.initial.target[0]?.key);
  const arrows = edges
    .filter(({ from, to }) => from !== to)
    .map(({ from, to, event }) => `  ${nameOf(from)} --> ${nameOf(to)}: ${event}`);
  const ends = names.filter((name) => machine.states[name]?.type === 'final');
  const staying = names.flatMap((name) => {
    const events = edges
      .filter(({ from, to }) => from === name && to === name)
      .map(({ event }) => `\`${event}\``);
    return events.length === 0 ? [] : [`- **${name}**: ${events.join(', ')}`];
  });
  return [
    `## ${machine.id}`,
    '',
    '```mermaid',
    'stateDiagram-v2',
    ...names.filter((name) => name.includes('-')).map((name) => `  state "${name}" as ${nameOf(name)}`),
    `  [*] --> ${nameOf(first)}`,
    ...arrows,
    ...ends.map((name) => `  ${nameOf(name)} --> [*]`),
    '```',
    '',
    ...(staying.length === 0 ? [] : ['Taken without a change of state:', '', ...staying, '']),
  ];
}

const isMachine = (thing: unknown): thing is AnyStateMachine =>
  typeof thing === 'object' && thing !== null && 'states' in thing && 'root' in thing;

/** `docs/machines.md`, whole. */
export function drawMachines(): string {
  const all = Object.values(machines).filter(isMachine);
  return [
    '# The machines of the rules',
    '',
    'Written by `npm run diagram` from `shared-model/session/machines.ts`; `npm run check` fails when it is stale.',
    'An arrow is what may follow what. Whether an order is carried out at all is decided by the refusals, before any machine is asked.',
    '',
    ...all.flatMap(drawMachine),
  ].join('\n');
}
