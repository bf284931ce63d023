/** The chain's code against published vectors: FIPS 180-4 for SHA-256, RFC 8785 for canonical JSON. */
import { expect, test } from 'vitest';
import { canonicalJson, NO_LINK, nextLink, sha256 } from '../../electron/host/log/chain.ts';

// FIPS 180-4 and its example files (NIST, Cryptographic Standards and Guidelines, "SHA256.pdf").
test.each([
  ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
  ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
])('SHA-256 of %.20s… is the published one', (text, digest) => {
  expect(sha256(text)).toBe(digest);
});

// RFC 8785, 3.2.2 to 3.2.4: the example of the standard itself.
test('the example of RFC 8785 is written as the standard writes it', () => {
  const value: unknown = JSON.parse(
    '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
  );
  expect(canonicalJson(value)).toBe(
    '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"\u20ac$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
  );
});

// The test data of the reference implementation (json-canonicalization, testdata/output), by SHA-256 as listed in its repository.
test('the values of the reference test data hash to the published digest', () => {
  const output =
    '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"\u20ac$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}';
  expect(canonicalJson(JSON.parse(output))).toBe(output);
  expect(sha256(output).slice(0, 8)).toBe('2d5e01a3');
});

// RFC 8785, 3.2.3: keys are sorted by UTF-16 code units, and nothing is normalised.
test('keys are sorted by UTF-16 code units', () => {
  const keys = ['\u20ac', '\r', '\ufb33', '1', '\ud83d\ude02', '\u0080', '\u00f6', '\n', '</script>'];
  const text = canonicalJson(Object.fromEntries(keys.map((key) => [key, 0])));
  expect(Object.keys(JSON.parse(text) as object).filter((key) => key !== '1')).toEqual([
    '\n',
    '\r',
    '</script>',
    '\u0080',
    '\u00f6',
    '\u20ac',
    '\ud83d\ude02',
    '\ufb33',
  ]);
  expect(text.indexOf('"1"')).toBeGreaterThan(text.indexOf('\\r'));
  expect(text.indexOf('"1"')).toBeLessThan(text.indexOf('</script>'));
});

// RFC 8785, appendix B: IEEE 754 bits and what is written.
test.each([
  ['4340000000000001', '9007199254740994'],
  ['444b1ae4d6e2ef50', '1e+21'],
  ['3eb0c6f7a0b5ed8d', '0.000001'],
  ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
  ['8000000000000000', '0'],
  ['0000000000000001', '5e-324'],
  ['7fefffffffffffff', '1.7976931348623157e+308'],
])('the number with bits %s is written %s', (bits, text) => {
  expect(canonicalJson(Buffer.from(bits, 'hex').readDoubleBE())).toBe(text);
});

test.each([Number.NaN, Number.POSITIVE_INFINITY, undefined, '\ud800'])('%s cannot be written', (value) => {
  expect(() => canonicalJson(value)).toThrow();
});

// Worked by hand with coreutils' sha256sum: H(32 zero bytes || line), then H(that || next line).
test('each link is over the one before and the line', () => {
  const first = nextLink(NO_LINK, '{"seq":0,"type":"open"}');
  expect(first).toBe('74f09d846e18a0140a8b87ba652284d63d675d904abb6e711a12039c57845ff8');
  expect(nextLink(first, '{"seq":1,"type":"select"}')).toBe(
    'ac0728f96880fb0eccc6f45c95203ba893feeeb87b5b837f8992edc14d118c6e',
  );
});
