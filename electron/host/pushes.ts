/** What the host tells all screens at once. */
import type { PushName, PushOf } from '../../shared-model/wire/contract.ts';

/** One push, its name and its value. */
export type Push = { [Name in PushName]: { readonly push: Name; readonly value: PushOf<Name> } }[PushName];

export interface Pushes {
  tell<Name extends PushName>(push: Name, value: PushOf<Name>): void;
  /** Tells a listener of every push from now on; returns the function that ends it. */
  subscribe(listener: (push: Push) => void): () => void;
}

export function makePushes(): Pushes {
  const listeners = new Set<(push: Push) => void>();
  return {
    tell: (push, value) => {
      for (const listener of listeners) listener({ push, value } as Push);
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
