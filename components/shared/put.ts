import { nothing } from 'lit';
import { Directive, directive, type DirectiveResult, type ElementPart } from 'lit/directive.js';

/** Sets style properties from script, which strict policies allow where a `style` attribute is refused. */
class Put extends Directive {
  #before: Record<string, string> = {};

  render(_properties: Readonly<Record<string, string>>): typeof nothing {
    return nothing;
  }

  override update(
    part: ElementPart,
    [properties]: [Readonly<Record<string, string>>],
  ): typeof nothing {
    const { style } = part.element as HTMLElement;
    for (const name of Object.keys(this.#before))
      if (!(name in properties)) style.removeProperty(name);
    for (const [name, value] of Object.entries(properties)) {
      if (this.#before[name] !== value) style.setProperty(name, value);
    }
    this.#before = { ...properties };
    return nothing;
  }
}

/** `<div ${put({ '--_y': '12px' })}>` */
export const put: (properties: Readonly<Record<string, string>>) => DirectiveResult<typeof Put> =
  directive(Put);
