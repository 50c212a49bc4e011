/** Ties the studio page together: the panels and their arrangement, the switch among them, arm's length. */
import { ArmsLength } from './studio/arm.js';
import { Panels } from './studio/panels.js';

const at = (id) => document.getElementById(id);
const plan = at('plan');
const panels = new Panels(at('panels'), 'tonewell studio arrangement');
const arm = new ArmsLength(plan);

const say = (words) => {
  if (words) at('said').textContent = words;
};

// One panel at a time: on a phone and at arm's length.

let current = location.hash.slice(1);

function show(id) {
  const shown = panels.list.filter(({ away }) => !away);
  current = shown.some((panel) => panel.id === id) ? id : shown[0].id;
  panels.current = current;
  at('switch').replaceChildren(
    ...shown.map(({ id: each, short, name }) => {
      const link = document.createElement('a');
      link.href = `#${each}`;
      link.textContent = short;
      link.dataset.show = each;
      if (short !== name) link.setAttribute('aria-label', `${short}: ${name}`);
      if (each === current) link.setAttribute('aria-current', 'true');
      return link;
    }),
  );
}

at('switch').addEventListener('click', (event) => {
  const id = event.target.closest('[data-show]')?.dataset.show;
  if (!id) return;
  event.preventDefault();
  history.replaceState(null, '', `#${id}`);
  show(id);
  at('switch').querySelector('[aria-current]').focus({ preventScroll: true });
  scrollTo({ top: 0 });
});

// Invented pictures open in the element they are meant for; without script they are links like any other.

document.addEventListener('click', (event) => {
  const link = event.target.closest?.('a[data-into]');
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  document.querySelector(link.dataset.into).src = link.href;
});

// The arrangement.

function listAway() {
  const away = panels.list.filter((panel) => panel.away);
  at('away').replaceChildren(
    ...away.map(({ id, name }) => {
      const button = document.createElement('button');
      button.type = 'button';
      button.textContent = `Take out: ${name}`;
      button.addEventListener('click', () => {
        panels.takeOut(id);
        at(id).querySelector('[data-act="earlier"], [data-act="away"]').focus();
        at(id).scrollIntoView({ block: 'nearest' });
      });
      return button;
    }),
  );
  at('away-none').hidden = away.length > 0;
}

function arrange(on) {
  panels.arranging = on;
  at('arrange').setAttribute('aria-pressed', String(on));
  at('arranging').hidden = !on;
}

at('arrange').addEventListener('click', () => arrange(!panels.arranging));
at('arranged').addEventListener('click', () => {
  arrange(false);
  at('arrange').focus();
});
at('reset').addEventListener('click', () => panels.reset());
panels.addEventListener('change', ({ detail }) => {
  const forgetful = detail.kept ? '' : ' This browser does not let the page remember it.';
  if (detail.words) say(detail.words + forgetful);
  listAway();
  show(current);
});
panels.addEventListener('size', ({ detail }) => say(detail.words));

// Arm's length.

at('arm').addEventListener('click', () => {
  arrange(false);
  arm.enter();
});
at('leave').addEventListener('click', () => arm.leave());
at('arm-undo').addEventListener('click', () => plan.undo());
at('arm-redo').addEventListener('click', () => plan.redo());
arm.addEventListener('told', ({ detail }) => (at('wake').textContent = detail));
arm.addEventListener('change', () => {
  at('arm-bar').hidden = !arm.on;
  if (!arm.on) at('wake').textContent = '';
  scrollTo({ top: 0 });
  (arm.on ? at('leave') : at('arm')).focus({ preventScroll: true });
});

listAway();
show(current);

// What asks the plan itself, which comes after the panels have their places.

void customElements.whenDefined('painting-plan').then(() => {
  const { store } = plan;
  const steps = () => {
    at('arm-undo').disabled = !store.canUndo;
    at('arm-redo').disabled = !store.canRedo;
  };
  store.addEventListener('plan', steps);
  steps();
  const filled = () => {
    const { status, exact } = store.picture;
    if (exact || status === 'failed') document.documentElement.dataset.filled = '';
  };
  store.addEventListener('picture', filled);
  filled();
});

// Without a network the page comes from its own copies; where that is not allowed it needs its server.
try {
  navigator.serviceWorker?.register('offline.js').catch(() => undefined);
} catch {
  // A sandboxed frame does not even let a page ask.
}
