/** Tabs by the pattern of the ARIA practices: one stop for the Tab key, arrows go from one to the next, Home and End to the ends. */
export function tabsIn(list) {
  const tabs = [...list.querySelectorAll('[role=tab]')];
  const show = (shown) => {
    for (const tab of tabs) {
      const chosen = tab === shown;
      tab.setAttribute('aria-selected', String(chosen));
      tab.tabIndex = chosen ? 0 : -1;
      document.getElementById(tab.getAttribute('aria-controls')).hidden = !chosen;
    }
  };
  list.addEventListener('click', ({ target }) => {
    const tab = target.closest('[role=tab]');
    if (tab) show(tab);
  });
  list.addEventListener('keydown', (event) => {
    const here = tabs.indexOf(document.activeElement);
    const ahead = getComputedStyle(list).direction === 'rtl' ? -1 : 1;
    const steps = { ArrowRight: ahead, ArrowLeft: -ahead, Home: -here, End: -1 - here };
    if (here < 0 || !(event.key in steps)) return;
    event.preventDefault();
    const next = tabs.at((here + steps[event.key]) % tabs.length);
    next.focus();
    show(next);
  });
  show(tabs[0]);
}
