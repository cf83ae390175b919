type BuildName = 'renderer' | 'host';
export function isStale(name: BuildName, root?: string): boolean;
export function sourcesHash(name: BuildName, root?: string): string;
export function buildStale(names: readonly BuildName[]): Promise<void>;
