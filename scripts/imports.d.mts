export function checkImports(root?: string): { files: number; wrong: string[] };
