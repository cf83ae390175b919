/**
 * The PIN of the member who acts, where they have one. It comes from the environment: what is typed as an argument
 * can be read in the list of processes and stays in the shell's history.
 */
export function pin(env: NodeJS.ProcessEnv = process.env): { pin?: string } {
  return env.BAYBOOK_PIN ? { pin: env.BAYBOOK_PIN } : {};
}
