export function installStamp(root?: string): string;
export function whyInstall(root?: string): string | null;
export function installDependencies(): Promise<void>;
export function localNode(root?: string): string | null;
export function handOver(script: string | undefined): Promise<number | null>;
export function isLateEnough(version: string): boolean;
