/** Who may come in to the loopback server. */
import { createHmac } from 'node:crypto';
import { expect, test } from 'vitest';
import { makeAdmission } from '../../electron/web/admission.ts';
import { comebackText } from '../../shared-model/wire/comeback.ts';

const KEY = 'ab'.repeat(32);

function admission() {
  let made = 0;
  const time = { now: 0 };
  const secret = () => {
    made += 1;
    return String(made).padStart(64, '0');
  };
  return { time, gate: makeAdmission({ port: 4127, now: () => time.now, comebackKey: KEY, secret }) };
}
const PASS = '1'.padStart(64, '0');

test('a token is good for one use, and becomes a cookie that no script can read', () => {
  const { gate } = admission();
  const token = gate.issueToken();
  expect(gate.redeem(token)).toBe(`cabward-4127=${PASS}; Path=/; HttpOnly; SameSite=Strict`);
  expect(gate.redeem(token)).toBeNull();
  expect(gate.hasCookie({ cookie: `a=b; cabward-4127=${PASS}` })).toBe(true);
});

test('a fresh token ends the one before it', () => {
  const { gate } = admission();
  const [first, second] = [gate.issueToken(), gate.issueToken()];
  expect(gate.redeem(first)).toBeNull();
  expect(gate.redeem(second)).not.toBeNull();
});

test('after five wrong tokens in a minute none is looked at until it is over', () => {
  const { gate, time } = admission();
  const token = gate.issueToken();
  for (let guess = 0; guess < 5; guess += 1) expect(gate.redeem('guess')).toBeNull();
  expect(gate.redeem(token)).toBeNull();
  time.now = 60_001;
  expect(gate.redeem(token)).not.toBeNull();
});

test.each([
  [{}, false],
  [{ cookie: '' }, false],
  [{ cookie: 'cabward-4127=' }, false],
  [{ cookie: `cabward-9999=${PASS}` }, false],
  [{ cookie: `cabward-4127=${PASS}0` }, false],
  [{ cookie: `cabward-4127=${PASS}` }, true],
])('the headers %j hold the cookie: %s', (headers, holds) => {
  expect(admission().gate.hasCookie(headers)).toBe(holds);
});

test.each([
  [{ host: '127.0.0.1:4127' }, true],
  [{ host: '127.0.0.1:4127', origin: 'http://127.0.0.1:4127', 'sec-fetch-site': 'same-origin' }, true],
  [{ host: '127.0.0.1:4127', 'sec-fetch-site': 'none' }, true],
  [{}, false],
  [{ host: 'localhost:4127' }, false],
  [{ host: '127.0.0.1' }, false],
  [{ host: '127.0.0.1:4127.evil.example' }, false],
  [{ host: 'evil.example:4127' }, false],
  [{ host: '127.0.0.1:4127', origin: 'http://127.0.0.1:4128' }, false],
  [{ host: '127.0.0.1:4127', origin: 'null' }, false],
  [{ host: '127.0.0.1:4127', origin: 'https://127.0.0.1:4127' }, false],
  [{ host: '127.0.0.1:4127', 'sec-fetch-site': 'cross-site' }, false],
  [{ host: '127.0.0.1:4127', 'sec-fetch-site': 'same-site' }, false],
])('the headers %j are let through: %s', (headers, through) => {
  expect(admission().gate.headersProblem(headers) === null).toBe(through);
});

const proofBy = (key: string, origin: string, challenge: string) =>
  createHmac('sha256', Buffer.from(key, 'hex')).update(comebackText(origin, challenge)).digest('hex');

test('a page that was in before comes back by answering a challenge with its key; the answer is good once', () => {
  const { gate } = admission();
  const challenge = gate.challenge();
  const proof = proofBy(KEY, 'http://127.0.0.1:4127', challenge);
  expect(gate.comeBack(challenge, proof)).toBe(`cabward-4127=${PASS}; Path=/; HttpOnly; SameSite=Strict`);
  expect(gate.comeBack(challenge, proof)).toBeNull();
});

test.each([
  ['another key', 'cd'.repeat(32), 'http://127.0.0.1:4127'],
  // What somebody who listens at another port was told is of no use here.
  ['an answer for another port', KEY, 'http://127.0.0.1:4128'],
])('%s does not let in', (_what, key, origin) => {
  const { gate } = admission();
  const challenge = gate.challenge();
  expect(gate.comeBack(challenge, proofBy(key, origin, challenge))).toBeNull();
});

test('a challenge that was never given, or half a minute ago, lets nobody in', () => {
  const { gate, time } = admission();
  const made = '9'.repeat(64);
  expect(gate.comeBack(made, proofBy(KEY, gate.origin, made))).toBeNull();
  const challenge = gate.challenge();
  time.now = 30_001;
  expect(gate.comeBack(challenge, proofBy(KEY, gate.origin, challenge))).toBeNull();
});

test('after five wrong proofs in a minute none is looked at, and the printed address still lets in', () => {
  const { gate } = admission();
  for (let guess = 0; guess < 5; guess += 1) expect(gate.comeBack(gate.challenge(), 'guess')).toBeNull();
  const challenge = gate.challenge();
  expect(gate.comeBack(challenge, proofBy(KEY, gate.origin, challenge))).toBeNull();
  expect(gate.redeem(gate.issueToken())).not.toBeNull();
});
