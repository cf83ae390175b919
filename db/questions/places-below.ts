/** Names of places as they are spoken of inside something that has a name of its own. */

/** The name of a place below its rig or kit: `L3, tray 2` of `Engine 31, L3, tray 2`; empty where it is that itself. */
export function below(path: string, of: string): string {
  return path.startsWith(`${of}, `) ? path.slice(of.length + 2) : '';
}
