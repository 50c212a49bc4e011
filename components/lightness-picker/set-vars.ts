import { noChange } from 'lit';
import { Directive, directive, type ElementPart } from 'lit/directive.js';

type Vars = Readonly<Record<`--${string}`, string | number>>;

/** Sets custom properties through the style object, which a page's policy against inline styles lets pass. */
class SetVars extends Directive {
  override render(_vars: Vars): unknown {
    return noChange;
  }

  override update(part: ElementPart, [vars]: [Vars]): unknown {
    const { style } = part.element as HTMLElement;
    for (const [name, value] of Object.entries(vars)) style.setProperty(name, String(value));
    return noChange;
  }
}

export const setVars = directive(SetVars);
