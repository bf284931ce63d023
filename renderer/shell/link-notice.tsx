/** Says when the host does not answer: what that means for what is on the screen and for what is pressed. */
import { useConsole } from '../console/use-console.tsx';
import { Hatch } from '../parts/hatch.tsx';

const WORDS = {
  connecting: 'Looking for the host of this console…',
  lost: 'The host does not answer: what you press does not count. Trying again.',
};

export function LinkNotice() {
  const link = useConsole((state) => state.link);
  return (
    <div role="status" className="link-notice">
      {link === 'open' ? null : (
        <>
          <span className="link-notice-hatch">
            <Hatch />
          </span>
          {WORDS[link]}
        </>
      )}
    </div>
  );
}
