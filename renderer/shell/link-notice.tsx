/** Says when the host does not answer, or not as it should: what that means for what is pressed. */
import { useConsole } from '../console/use-console.tsx';
import { Hatch } from '../parts/hatch.tsx';

const WORDS = {
  connecting: 'Looking for the host of this console…',
  lost: 'The host does not answer: what you press does not count. What is typed stays. Trying again; a console that is started anew at this address is found. If it starts at another, open the one that it prints.',
};

export function LinkNotice() {
  const link = useConsole((state) => state.link);
  const problem = useConsole((state) => state.problem);
  const says = link === 'open' ? problem : WORDS[link];
  return (
    <div role="status" className="link-notice">
      {says === null ? null : (
        <>
          <span className="link-notice-hatch">
            <Hatch />
          </span>
          {says}
        </>
      )}
    </div>
  );
}
