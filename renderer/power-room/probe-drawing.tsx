/** Where the probes of the meter touch: the posts of two supplies whose commons are joined. */

const POSTS = { hotA: [50, 34], commonA: [50, 74], hotB: [150, 34], commonB: [150, 74] } as const;
type Post = keyof typeof POSTS;

const PROBES = {
  voltsA: ['commonA', 'hotA'],
  voltsB: ['commonB', 'hotB'],
  voltsAcross: ['hotA', 'hotB'],
} as const satisfies Record<string, readonly [Post, Post]>;
export type Reading = keyof typeof PROBES;

const WORDS: Readonly<Record<Reading, string>> = {
  voltsA: 'One probe on the common post of A, the other on its hot post',
  voltsB: 'One probe on the common post of B, the other on its hot post',
  voltsAcross: 'One probe on the hot post of A, the other on the hot post of B',
};

export function ProbeDrawing({ reading }: { readonly reading: Reading }) {
  const [from, to] = PROBES[reading];
  const [one, other] = [POSTS[from], POSTS[to]];
  const bow = reading === 'voltsAcross' ? [100, -2] : reading === 'voltsA' ? [2, 54] : [198, 54];
  return (
    <svg className="probes" viewBox="0 0 200 110" role="img" aria-label={WORDS[reading]}>
      <rect x="28" y="16" width="44" height="76" />
      <rect x="128" y="16" width="44" height="76" />
      <text x="36" y="58">
        A
      </text>
      <text x="156" y="58">
        B
      </text>
      <path className="probes-common" d={`M${POSTS.commonA.join(' ')}H${POSTS.commonB[0]}`} />
      <text x="100" y="106" textAnchor="middle" className="probes-word">
        commons joined
      </text>
      {Object.entries(POSTS).map(([post, [x, y]]) => (
        <circle key={post} cx={x} cy={y} r="5" data-touched={post === from || post === to || undefined} />
      ))}
      <path className="probes-lead" d={`M${one.join(' ')}Q${bow.join(' ')} ${other.join(' ')}`} />
    </svg>
  );
}
