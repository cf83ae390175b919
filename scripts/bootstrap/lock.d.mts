export const GONE_MS: number;
export function withLock<T>(name: string, work: () => T | Promise<T>, root?: string): Promise<T>;
