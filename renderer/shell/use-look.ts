/** Keeps theme and letter sizes of the page as the user set them, on whatever screen the window is, with more contrast where the system asks for it. */
import { useLayoutEffect } from 'react';
import { useConsole } from '../console/use-console.tsx';
import { applyLook } from '../theme/apply-theme.ts';

export function useLook(): void {
  const settings = useConsole((state) => state.settings);
  useLayoutEffect(() => {
    const contrast = window.matchMedia('(prefers-contrast: more)');
    const apply = () =>
      applyLook(
        document.documentElement,
        settings,
        [window.screen.width, window.screen.height],
        contrast.matches,
      );
    apply();
    window.addEventListener('resize', apply);
    contrast.addEventListener('change', apply);
    return () => {
      window.removeEventListener('resize', apply);
      contrast.removeEventListener('change', apply);
    };
  }, [settings]);
}
