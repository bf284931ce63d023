/** "1 block", "3 blocks". */
export const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;
