/** Who may come in to the loopback server. */
import { expect, test } from 'vitest';
import { makeAdmission } from '../../electron/web/admission.ts';

function admission() {
  let made = 0;
  const time = { now: 0 };
  const secret = () => {
    made += 1;
    return String(made).padStart(64, '0');
  };
  return { time, gate: makeAdmission({ port: 4127, now: () => time.now, secret }) };
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
