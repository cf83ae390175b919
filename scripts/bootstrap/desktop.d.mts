export const TRY_MS: number;
export const PAUSE_DAYS: number;
export function electronRuntime(root?: string): string | null;
export function electronOrFetch(options?: {
  root?: string;
  now?: number;
  try_ms?: number;
}): Promise<string | null>;
export function electronArguments(args: readonly string[], root?: string, uid?: number): string[];
export function didNotStart(code: number, lived_ms: number): boolean;
