/** A sentence with a capital first letter. */
export function capital(text: string): string {
  return text.charAt(0).toLocaleUpperCase() + text.slice(1);
}
