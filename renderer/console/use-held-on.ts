/** The version of its railroad that the evening stays on, while others are drawn and published. */
import { useEffect, useState } from 'react';
import { useConsole, useConsoleStore } from './use-console.tsx';

interface HeldOn {
  readonly railroad: string;
  readonly version: number;
}

/** @returns null while no evening goes on, and where its railroad was removed */
export function useHeldOn(): HeldOn | null {
  return useConsole(({ evening }) =>
    evening === null || evening.state.phase === 'ended' ? null : evening.heldOn,
  );
}

/** "railroad version 3; 4 is for the next evening"; null while the evening is on the newest version. */
export function useVersionWords(): string | null {
  const { connection } = useConsoleStore();
  const heldOn = useHeldOn();
  const railroad = heldOn?.railroad;
  const [newest, setNewest] = useState<number | null>(null);
  useEffect(() => {
    if (railroad === undefined) return;
    let wanted = true;
    const read = async () => {
      const answer = await connection.call('railroads.list', {});
      if (wanted && answer.ok) setNewest(answer.value.find(({ id }) => id === railroad)?.version ?? null);
    };
    void read();
    const end = connection.on('railroads.changed', () => void read());
    return () => {
      wanted = false;
      end();
    };
  }, [connection, railroad]);
  if (heldOn === null || newest === null || newest <= heldOn.version) return null;
  return `railroad version ${heldOn.version}; ${newest} is for the next evening`;
}
