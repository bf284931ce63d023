import { describe, expect, it } from 'vitest';
import { ALARM_CODES } from '../../shared-model/refusal.ts';
import { ALARM_RANKS, alarmRank } from '../../shared-model/session/alarms/rank.ts';
import { initialState } from '../../shared-model/session/initial.ts';
import type { PhaseCheckNow, SessionState } from '../../shared-model/session/state.ts';
import { exampleRailroad } from '../support/example.ts';

