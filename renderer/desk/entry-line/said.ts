/** What was said in the slots of a form. Asking for a slot that the form does not have is a fault of the form. */
import type { TrainId } from '../../../shared-model/ids.ts';
import type { Thing } from './things.ts';

export type SaidValue = Thing | readonly Thing[] | string | number;

export class Said {
  readonly values: Readonly<Record<string, SaidValue>>;
  /** How far the words were from what they were taken for, all together. */
  readonly distance: number;

  constructor(values: Readonly<Record<string, SaidValue>> = {}, distance = 0) {
    this.values = values;
    this.distance = distance;
  }

  with(as: string, value: SaidValue, distance = 0): Said {
    return new Said({ ...this.values, [as]: value }, this.distance + distance);
  }

  /** The same, said less plainly. */
  farther(distance: number): Said {
    return distance === 0 ? this : new Said(this.values, this.distance + distance);
  }

  has(as: string): boolean {
    return as in this.values;
  }

  thing(as: string): Thing {
    const value = this.values[as];
    if (typeof value !== 'object' || !('id' in value)) throw new Error(`no thing was said as ${as}`);
    return value;
  }

  /** The id of a thing; the caller's form says which kind it is. */
  id<Id extends string>(as: string): Id {
    return this.thing(as).id as Id;
  }

  things(as: string): readonly Thing[] {
    const value = this.values[as];
    if (!Array.isArray(value)) throw new Error(`no things were said as ${as}`);
    return value;
  }

  ids<Id extends string>(as: string): readonly Id[] {
    return this.things(as).map(({ id }) => id as Id);
  }

  text(as: string): string {
    const value = this.values[as];
    if (typeof value !== 'string') throw new Error(`no words were said as ${as}`);
    return value;
  }

  number(as: string): number {
    const value = this.values[as];
    if (typeof value !== 'number') throw new Error(`no number was said as ${as}`);
    return value;
  }
}

/** The train that a line is about. */
export const trainOf = (said: Said): TrainId => said.id<TrainId>('train');
export const labelOf = (said: Said): string => said.thing('train').label;
