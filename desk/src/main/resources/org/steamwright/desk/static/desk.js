// Sends the page's token with each change, and tells when a change did not reach the desk.
'use strict';
document.addEventListener('htmx:configRequest', (event) => {
  event.detail.headers['X-Token'] = document.querySelector('meta[name=token]').content;
});
for (const name of ['htmx:sendError', 'htmx:timeout']) {
  document.addEventListener(name, (event) => {
    const place = document.getElementById('unsaved') || document.querySelector('main').insertAdjacentElement('afterbegin',
      Object.assign(document.createElement('p'), { id: 'unsaved', className: 'act' }));
    place.setAttribute('role', 'alert');
    place.textContent = document.body.dataset.unsaved || 'Not saved: the desk does not answer. What you typed is still in the field.';
    if (event.target && event.target.classList) event.target.classList.add('unsaved');
  });
}
