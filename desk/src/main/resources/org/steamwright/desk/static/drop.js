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
      form.querySelector('.sending').textContent = form.dataset.sending;
      form.requestSubmit();
    };
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
  const words = (text) => text.split(',').map((part) => part.trim()).filter(Boolean);
  for (const places of document.querySelectorAll('.places')) {
    const field = places.closest('fieldset').querySelector('[name="' + places.dataset.for + '"]');
    const buttons = [...places.querySelectorAll('button')];
    const show = () => {
      const said = words(field.value.toLowerCase());
      for (const button of buttons) button.setAttribute('aria-pressed', String(said.includes(button.dataset.step)));
    };
    for (const button of buttons) {
      button.addEventListener('click', () => {
        const group = button.dataset.group.split(',');
        const isOff = button.getAttribute('aria-pressed') === 'true';
        const others = words(field.value).filter((word) => !group.includes(word.toLowerCase()));
        const steps = buttons.filter((one) => one.getAttribute('aria-pressed') === 'true' && !group.includes(one.dataset.step)).map((one) => one.dataset.step);
        const rest = others.filter((word) => !steps.includes(word.toLowerCase()));
        const all = [...steps, ...(isOff ? [] : [button.dataset.step])];
        const order = buttons.map((one) => one.dataset.step);
        all.sort((a, b) => order.indexOf(a) - order.indexOf(b));
        field.value = [...all, ...rest].join(', ');
        show();
      });
    }
    field.addEventListener('input', show);
    places.hidden = false;
    show();
  }
})();
