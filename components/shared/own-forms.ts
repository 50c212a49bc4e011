/**
 * Lets the forms in an element's own tree be told by the element itself. In a frame that is sandboxed without `allow-forms` the platform
 * drops a form before anybody hears `submit`, though ours are never sent anywhere. Enter in a field comes as a click of its button too.
 */
export function tellOwnForms(root: Node): void {
  root.addEventListener('click', (event) => {
    const button = (event.target as Element).closest<HTMLButtonElement>('button[type=submit]');
    const form = button?.form;
    // A form of the page that is slotted in stays the page's.
    if (!form || form.getRootNode() !== root || event.defaultPrevented) return;
    event.preventDefault();
    if (!form.noValidate && !form.reportValidity()) return;
    const told = { submitter: button, bubbles: true, cancelable: true };
    form.dispatchEvent(new SubmitEvent('submit', told));
  });
}
