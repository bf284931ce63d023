/** Keeps theme and letter sizes of the page as the user set them, on whatever screen the window is. */
import { useLayoutEffect } from 'react';
import { useConsole } from '../console/use-console.tsx';
import { applyLook } from '../theme/apply-theme.ts';

export function useLook(): void {
  const settings = useConsole((state) => state.settings);
  useLayoutEffect(() => {
    const apply = () =>
      applyLook(document.documentElement, settings, [window.screen.width, window.screen.height]);
    apply();
    window.addEventListener('resize', apply);
    return () => window.removeEventListener('resize', apply);
  }, [settings]);
}
