/** Branded ids: strings that cannot be mixed up. Every id is unique in its railroad document, whatever it names. */
import { z } from './zod.ts';

const id = z
  .string()
  .min(1, 'expected an id of at least one character')
  .max(80, 'expected an id of at most 80 characters');

export const nodeId = id.brand<'NodeId'>();
export const edgeId = id.brand<'EdgeId'>();
export const supplyId = id.brand<'SupplyId'>();
/** A throttle; with the person who has it tonight it is a cab, so the same id names both. */
export const throttleId = id.brand<'ThrottleId'>();
export const selectorId = id.brand<'SelectorId'>();
export const toggleId = id.brand<'ToggleId'>();
export const blockId = id.brand<'BlockId'>();
export const trainId = id.brand<'TrainId'>();
export const cutId = id.brand<'CutId'>();
export const placeId = id.brand<'PlaceId'>();
export const settingId = id.brand<'SettingId'>();
export const authorityId = id.brand<'AuthorityId'>();
/** Any thing of the railroad or of tonight: block, turnout, selector, throttle, train… */
export const thingId = id;

export type NodeId = z.infer<typeof nodeId>;
export type EdgeId = z.infer<typeof edgeId>;
export type SupplyId = z.infer<typeof supplyId>;
export type ThrottleId = z.infer<typeof throttleId>;
export type SelectorId = z.infer<typeof selectorId>;
export type ToggleId = z.infer<typeof toggleId>;
export type BlockId = z.infer<typeof blockId>;
export type TrainId = z.infer<typeof trainId>;
export type CutId = z.infer<typeof cutId>;
export type PlaceId = z.infer<typeof placeId>;
export type SettingId = z.infer<typeof settingId>;
export type AuthorityId = z.infer<typeof authorityId>;
