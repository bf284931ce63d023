/** Sums by id and by figure, the ids and figures in the order in which they were first met. */
export class Tally {
  readonly #sums = new Map<string, Map<string, number>>();

  add(id: string, figure: string, amount: number): void {
    const sums = this.#sums.get(id) ?? new Map<string, number>();
    sums.set(figure, (sums.get(figure) ?? 0) + amount);
    this.#sums.set(id, sums);
  }

  of(id: string, figure: string): number {
    return this.#sums.get(id)?.get(figure) ?? 0;
  }

  ids(): readonly string[] {
    return [...this.#sums.keys()];
  }

  /** The figures of an id that begin so, without that beginning. */
  beginning(id: string, with_: string): readonly { readonly code: string; readonly count: number }[] {
    return [...(this.#sums.get(id) ?? [])].flatMap(([figure, count]) =>
      figure.startsWith(with_) ? [{ code: figure.slice(with_.length), count }] : [],
    );
  }
}
