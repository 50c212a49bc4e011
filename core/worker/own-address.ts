/**
 * Where a page requires trusted types, `new Worker` refuses plain addresses. A policy named `tonewell` vouches for the kit's own: the
 * worker beside the bundle and the blobs that the client makes. It lets nothing else through.
 * (W3C Trusted Types: https://www.w3.org/TR/trusted-types/)
 */
const POLICY = 'tonewell';

interface Policy {
  createScriptURL(address: string): object;
}

/** The part of the platform's factory that is used here. */
interface PolicyFactory {
  createPolicy(name: string, rules: { createScriptURL(address: string): string }): Policy;
  isScriptURL(value: unknown): boolean;
}

const factory = (): PolicyFactory | undefined =>
  (globalThis as { trustedTypes?: PolicyFactory }).trustedTypes;

const own = new Set<string>();
/** `null` once it is known that the page does not let the policy be made. */
let policy: Policy | null | undefined;

/** The policy, made when it is first needed: a page under `trusted-types` that does not name it is asked once only. */
function ownPolicy(): Policy | null {
  if (policy !== undefined) return policy;
  policy = null;
  try {
    const rules = {
      createScriptURL(address: string): string {
        if (own.has(address)) return address;
        throw new TypeError(`${address} is no address of the kit's own`);
      },
    };
    policy = factory()?.createPolicy(POLICY, rules) ?? null;
  } catch {
    // The page does not allow it (or has a second copy of the kit): the plain address is tried.
  }
  return policy;
}

/** An address of the kit's own as `new Worker` takes it: vouched for where there are trusted types, else as it is. */
export function ownAddress(address: string): string {
  own.add(address);
  return (ownPolicy()?.createScriptURL(address) ?? address) as string;
}

/** An address that will not be used again. */
export function forgetAddress(address: string): void {
  own.delete(address);
}

/** Whether a policy of the page has vouched for an address. */
export function isVouchedFor(address: unknown): boolean {
  return factory()?.isScriptURL(address) ?? false;
}
