/** The nine fuses of Electron's program as we want them; all are set, none is left to a default that may change. */
import { type FuseConfig, FuseV1Options, FuseVersion } from '@electron/fuses';

export const FUSES = {
  version: FuseVersion.V1,
  // A tenth fuse in a later Electron makes packaging fail until somebody has decided about it.
  strictlyRequireAllFuses: true,
  // macOS refuses a program whose signature no longer fits.
  resetAdHocDarwinSignature: true,
  [FuseV1Options.RunAsNode]: false,
  [FuseV1Options.EnableCookieEncryption]: true,
  [FuseV1Options.EnableNodeOptionsEnvironmentVariable]: false,
  [FuseV1Options.EnableNodeCliInspectArguments]: false,
  [FuseV1Options.EnableEmbeddedAsarIntegrityValidation]: true,
  [FuseV1Options.OnlyLoadAppFromAsar]: true,
  [FuseV1Options.LoadBrowserProcessSpecificV8Snapshot]: false,
  [FuseV1Options.GrantFileProtocolExtraPrivileges]: false,
  [FuseV1Options.WasmTrapHandlers]: true,
} as const satisfies FuseConfig;
