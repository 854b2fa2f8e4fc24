// Files dropped on the page of the recordings, and places chosen on the plan instead of typed.
'use strict';
(() => {
  const form = document.querySelector('form.drop');
  if (form) {
    const chosen = form.querySelector('input[type=file]');
    const send = () => {
      const size = [...chosen.files].reduce((sum, file) => sum + file.size, 0);
      if (size > Number(form.dataset.most) - 10000) {
        form.querySelector('.sending').textContent = form.dataset.tooLarge;
        chosen.value = '';
        return;
      }
      sent();
    };
    const told = (text, isAct) => {
      const line = form.querySelector('.sending');
      line.className = isAct ? 'sending act' : 'sending';
      line.textContent = text;
    };
    const sent = async () => {
      told(form.dataset.sending, false);
      try {
        const answer = await fetch(form.action, { method: 'POST', body: new FormData(form), redirect: 'manual' });
        if (answer.type === 'opaqueredirect') { location.reload(); return; }
        const page = new DOMParser().parseFromString(await answer.text(), 'text/html');
        told([...page.querySelectorAll('main .act, main .act + p')].map((one) => one.textContent).join(' ') || form.dataset.cut, true);
      } catch (cut) {
        told(form.dataset.cut, true);
      }
      // the same files can be chosen once more
      chosen.value = '';
    };
    form.addEventListener('submit', (event) => { event.preventDefault(); send(); });
    chosen.addEventListener('change', () => { if (chosen.files.length) send(); });
    for (const name of ['dragenter', 'dragover']) {
      form.addEventListener(name, (event) => { event.preventDefault(); form.classList.add('is-over'); });
    }
    form.addEventListener('dragleave', (event) => { if (!form.contains(event.relatedTarget)) form.classList.remove('is-over'); });
    form.addEventListener('drop', (event) => {
      event.preventDefault();
      form.classList.remove('is-over');
      if (!event.dataTransfer.files.length) return;
      chosen.files = event.dataTransfer.files;
      send();
    });
  }
  // the field may be another one by now: the plan writes it, too
  const sheetOf = (places) => places.closest('fieldset').querySelector('[name="' + places.dataset.for + '"]');
  const words = (text) => text.split(',').map((part) => part.trim()).filter(Boolean);
  for (const places of document.querySelectorAll('.places')) {
    const fieldset = places.closest('fieldset');
    const buttons = [...places.querySelectorAll('button')];
    const show = () => {
      const said = words(sheetOf(places).value.toLowerCase());
      for (const button of buttons) button.setAttribute('aria-pressed', String(said.includes(button.dataset.step)));
    };
    for (const button of buttons) {
      button.addEventListener('click', () => {
        const group = button.dataset.group.split(',');
        const isOff = button.getAttribute('aria-pressed') === 'true';
        const others = words(sheetOf(places).value).filter((word) => !group.includes(word.toLowerCase()));
        const steps = buttons.filter((one) => one.getAttribute('aria-pressed') === 'true' && !group.includes(one.dataset.step)).map((one) => one.dataset.step);
        const rest = others.filter((word) => !steps.includes(word.toLowerCase()));
        const all = [...steps, ...(isOff ? [] : [button.dataset.step])];
        const order = buttons.map((one) => one.dataset.step);
        all.sort((a, b) => order.indexOf(a) - order.indexOf(b));
        const now = sheetOf(places);
        now.value = [...all, ...rest].join(', ');
        show();
        now.dispatchEvent(new Event('change', { bubbles: true }));
      });
    }
    fieldset.addEventListener('input', show);
    document.addEventListener('htmx:afterSettle', show);
    places.hidden = false;
    show();
  }

  // The plan: one place of each view is reached by the tab key, the others by the arrow keys; Enter puts the channel there.
  const view = (button) => [...button.parentElement.children];
  const reach = (button) => { for (const one of view(button)) one.tabIndex = one === button ? 0 : -1; };
  const mark = () => {
    const chosen = document.querySelector('.tap input[name=channel]:checked');
    const spots = chosen ? chosen.dataset.spots.split(' ') : [];
    for (const group of document.querySelectorAll('.spots')) {
      const buttons = [...group.children];
      for (const button of buttons) button.setAttribute('aria-pressed', String(spots.includes(button.id.slice('spot-'.length))));
      reach(buttons.find((one) => one === document.activeElement) || buttons.find((one) => one.getAttribute('aria-pressed') === 'true') || buttons[4]);
    }
  };
  // A tap is sent with what was chosen when it was made, and after everything that was entered before it: an answer that comes
  // meanwhile draws the plan anew, with its form.
  const planned = document.getElementById('planned');
  document.addEventListener('submit', (event) => {
    const form = event.target;
    const button = event.submitter;
    if (!planned || !form.matches('form.tap') || !button || !button.name) return;
    event.preventDefault();
    event.stopPropagation();
    const values = { at: button.value, channel: new FormData(form).get('channel') };
    planned.dispatchEvent(new Event('desk:entered', { bubbles: true }));
    htmx.ajax('POST', form.action, { source: planned, target: '#plan', swap: 'outerHTML', values });
  }, true);
  let tapped;
  document.addEventListener('change', (event) => {
    if (event.target.name !== 'channel') return;
    tapped = event.target.value;
    mark();
  });
  document.addEventListener('htmx:afterSettle', () => {
    const same = [...document.querySelectorAll('.tap input[name=channel]')].find((one) => one.value === tapped);
    if (same) same.checked = true;
    mark();
  });
  document.addEventListener('keydown', (event) => {
    const button = event.target.closest && event.target.closest('.spots button');
    if (!button || event.altKey || event.ctrlKey || event.metaKey) return;
    const all = view(button);
    const at = all.indexOf(button);
    const to = {
      ArrowLeft: at % 3 > 0 ? at - 1 : at, ArrowRight: at % 3 < 2 ? at + 1 : at,
      ArrowUp: at > 2 ? at - 3 : at, ArrowDown: at < 6 ? at + 3 : at, Home: 0, End: 8,
    }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    reach(all[to]);
    all[to].focus();
  });
  mark();
})();
