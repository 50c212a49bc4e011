import type { PropertyDeclaration, ReactiveElement } from 'lit';

type Decorator = (proto: ReactiveElement, name: string) => void;

/** A reactive property: Lit's own declaration of it, without the standard form of decorators, which this kit is not built with. */
export function property(options?: PropertyDeclaration): Decorator {
  return (proto, name) => {
    (proto.constructor as typeof ReactiveElement).createProperty(name, options);
    // An accessor of the class's own would be put back otherwise, in the place of the one that Lit has made around it.
    return Object.getOwnPropertyDescriptor(proto, name);
  };
}

/** A reactive property of the element's own: no attribute, not for the page. */
export function state(): Decorator {
  return property({ state: true, attribute: false });
}
