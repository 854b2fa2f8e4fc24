// Sends the page's token with each change, and tells when a change did not reach the desk.
'use strict';
// What did not reach the desk stays in its field; sent again, it says for how long it has been standing there.
const held = new WeakMap();
function typed(form) {
  const field = form.matches && form.matches('form.field') && form.querySelector('[name=value]');
  return field ? field.value : null;
}
document.addEventListener('htmx:configRequest', (event) => {
  event.detail.headers['X-Token'] = document.querySelector('meta[name=token]').content;
  const before = held.get(event.detail.elt);
  if (before && before.text === typed(event.detail.elt)) {
    event.detail.parameters.held = String(Math.max(0, Math.round((Date.now() - before.since) / 1000)));
  }
});
function unsaved(event, text) {
  const place = document.getElementById('unsaved') || document.querySelector('main').insertAdjacentElement('afterbegin',
    Object.assign(document.createElement('p'), { id: 'unsaved', className: 'act' }));
  place.setAttribute('role', 'alert');
  place.textContent = text;
  if (event.target && event.target.classList) event.target.classList.add('unsaved');
}
for (const name of ['htmx:sendError', 'htmx:timeout']) {
  document.addEventListener(name, (event) => {
    const text = typed(event.target);
    const before = held.get(event.target);
    if (text !== null && !(before && before.text === text)) held.set(event.target, { text, since: Date.now() });
    unsaved(event, document.body.dataset.unsaved);
  });
}
// The desk answered, and refused: its own words say why, such as a session that has ended.
document.addEventListener('htmx:responseError', (event) => {
  const answer = new DOMParser().parseFromString(event.detail.xhr.responseText, 'text/html');
  const words = [...answer.querySelectorAll('main .act, main .act + p')].map((one) => one.textContent);
  if (words.length) unsaved(event, words.join(' '));
});
// What follows is asked for after each change. An answer to an older question comes too late once a newer one stands in its place.
document.addEventListener('htmx:beforeSwap', (event) => {
  if (event.detail.target.id === 'follows' && !event.detail.requestConfig.elt.isConnected) event.detail.shouldSwap = false;
});
// An answer to what was sent before does not take away what was typed since; that is sent next, upon what is kept by now.
document.addEventListener('htmx:beforeSwap', (event) => {
  const form = event.detail.target;
  const sent = event.detail.requestConfig.parameters;
  if (!form.matches || !form.matches('form.field') || event.detail.requestConfig.elt !== form || sent.take) return;
  const field = form.querySelector('[name=value]');
  const plain = (text) => text.replace(/\r\n/g, '\n');
  if (!field || sent.value === undefined || plain(field.value) === plain(String(sent.value))) return;
  event.detail.shouldSwap = false;
  const answer = new DOMParser().parseFromString(event.detail.xhr.responseText, 'text/html');
  const seen = answer.querySelector('form.field input[name=seen]');
  if (seen) form.querySelector('[name=seen]').value = seen.value;
});
// Of two answers that overtook each other on their way, the older one does not say what was saved last.
document.addEventListener('htmx:oobBeforeSwap', (event) => {
  const shown = event.detail.target;
  if (!shown.id || shown.id !== 'trail') return;
  const part = event.detail.fragment;
  const newer = part.matches && part.matches('#trail') ? part : part.querySelector('#trail');
  if (newer && Number(newer.dataset.at) < Number(shown.dataset.at)) event.detail.shouldSwap = false;
});
// What waits for an earlier entry to be answered has not reached the desk yet.
const waiting = new Map();
function entered(event) {
  const elt = event.type === 'change' ? event.target.closest('form[hx-post][hx-sync]') : event.target;
  if (elt) waiting.set(elt, (waiting.get(elt) || 0) + 1);
}
// counted before the form sends it, which it does at once when nothing else is on its way
for (const name of ['change', 'desk:entered']) document.addEventListener(name, entered, true);
document.addEventListener('htmx:beforeSend', (event) => {
  const left = (waiting.get(event.detail.elt) || 0) - 1;
  if (left > 0) waiting.set(event.detail.elt, left);
  else waiting.delete(event.detail.elt);
});
// The notice goes when every field that was marked has reached the desk.
document.addEventListener('htmx:afterRequest', (event) => {
  if (!event.detail.successful) return;
  if (event.target && event.target.classList) event.target.classList.remove('unsaved');
  const place = document.getElementById('unsaved');
  if (place && !document.querySelector('.unsaved')) place.remove();
});
// A photo that was taken or chosen is sent at once, without a further touch.
document.addEventListener('change', (event) => {
  const chosen = event.target;
  if (chosen.matches('input[type=file][name=photo]') && chosen.files.length) chosen.form.requestSubmit();
});
// Fields save themselves when they are left, so that their buttons are only there for those who have no script.
document.documentElement.classList.add('scripted');
// What a link leads to may be folded away.
function unfold() {
  const one = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  let isFolded = false;
  for (let fold = one && one.closest('details'); fold; fold = fold.parentElement.closest('details')) {
    isFolded = isFolded || !fold.open;
    fold.open = true;
  }
  if (isFolded) one.scrollIntoView();
}
window.addEventListener('hashchange', unfold);
unfold();
// Nobody signs past a change that is on its way: what is typed and not kept yet is not what would be signed.
function isTyped(form) {
  const field = form.querySelector('[name=value]');
  if (!field || field.disabled) return false;
  const kept = field.tagName === 'SELECT'
    ? ([...field.options].find((one) => one.defaultSelected) || { value: '' }).value : field.defaultValue;
  return field.value !== kept;
}
function isOnItsWay(form) {
  const field = form.querySelector('[name=value]');
  return Boolean(field) && !field.disabled && (form.classList.contains('htmx-request') || isTyped(form));
}
document.addEventListener('submit', (event) => {
  const words = event.target.dataset.waiting;
  if (!words || ![...document.querySelectorAll('form.field')].some(isOnItsWay)) return;
  event.preventDefault();
  const place = event.target.querySelector('.waiting') || event.target.insertAdjacentElement('afterbegin',
    Object.assign(document.createElement('p'), { className: 'act waiting' }));
  place.setAttribute('role', 'alert');
  place.textContent = words;
}, true);
// Leaving asks only if something would be lost: a field that did not reach the desk or was refused, a line, photo or signature
// that waits for its own button.
let sent = null;
document.addEventListener('submit', (event) => { sent = event.defaultPrevented ? null : event.target; });
window.addEventListener('pageshow', () => { sent = null; });
function isWaiting(form) {
  if (form === sent) return false;
  return [...form.querySelectorAll('textarea, input[name=strokes], input[type=file], input[name=on]')].some((one) => one.value !== (one.tagName === 'TEXTAREA' ? one.defaultValue : ''));
}
window.addEventListener('beforeunload', (event) => {
  const lost = [...document.querySelectorAll('.unsaved, .refused')].some((one) => one !== sent);
  // a field that stands as it is kept holds nothing back, however often it was changed and sent
  const isHeldBack = [...waiting.keys()].some((one) => one.isConnected && (!one.matches('form.field') || isTyped(one)));
  if (lost || isHeldBack || [...document.querySelectorAll('form.own')].some(isWaiting)) {
    event.preventDefault();
    event.returnValue = '';
  }
});
// A cycle under way shows its time, by the desk's clock: the page says what it was there, and the tablet only counts on from it.
const ahead = new Map();
function clocks() {
  for (const strip of document.querySelectorAll('.running[data-now]')) {
    if (!ahead.has(strip.dataset.now)) ahead.set(strip.dataset.now, Date.parse(strip.dataset.now) - Date.now());
    const now = Date.now() + ahead.get(strip.dataset.now);
    for (const clock of strip.querySelectorAll('.clock[data-since]')) {
      const seconds = Math.max(0, Math.floor((now - Date.parse(clock.dataset.since)) / 1000));
      const two = (number) => String(number).padStart(2, '0');
      clock.textContent = `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
      const until = clock.dataset.until;
      clock.parentElement.classList.toggle('act', Boolean(until) && now >= Date.parse(until));
    }
  }
}
setInterval(clocks, 1000);
clocks();
// Indicators that can be read from now on are told on whatever page is open: in its title, beside 'today', and as a notice.
const alarm = document.getElementById('alarm');
if (alarm) {
  const ahead = Date.parse(alarm.dataset.now) - Date.now();
  const soon = alarm.dataset.soon.split(' ').filter(Boolean).map(Date.parse);
  let due = Number(alarm.dataset.due);
  const title = document.title.replace(/^\(\d+\) /, '');
  const part = (text, name) => Object.assign(document.createElement('span'), { textContent: text, className: name });
  const ring = () => {
    const now = Date.now() + ahead;
    for (const left of document.querySelectorAll('.countdown[data-at]')) {
      const minutes = Math.ceil((Date.parse(left.dataset.at) - now) / 60000);
      const hours = Math.floor(minutes / 60);
      left.textContent = minutes <= 0 ? left.dataset.due
        : hours < 48 ? left.dataset.words.replace('%h', hours).replace('%m', minutes % 60)
          : left.dataset.days.replace('%d', Math.floor(hours / 24)).replace('%h', hours % 24);
    }
    const before = due;
    while (soon.length && soon[0] <= now) {
      soon.shift();
      due += 1;
    }
    if (due === before) return;
    document.title = `(${due}) ${title}`;
    const count = document.getElementById('alarm-count');
    const number = part(String(due), '');
    number.setAttribute('aria-hidden', 'true');
    count.replaceChildren(' ', number, part(' ' + count.dataset.words.replace('%n', due), 'for-ears'));
    const link = Object.assign(document.createElement('a'), { href: '/today#to-read', textContent: alarm.dataset.link });
    alarm.replaceChildren(part(alarm.dataset.words, 'act'), ' ', link);
  };
  setInterval(ring, 1000);
  ring();
}
// A signature is drawn as strokes of whole numbers and sent as such.
for (const pad of document.querySelectorAll('.pad')) {
  const canvas = pad.querySelector('canvas');
  const field = pad.parentElement.querySelector('input[name=strokes]');
  const pen = canvas.getContext('2d');
  let strokes = [];
  let stroke = null;
  pad.hidden = false;
  pen.lineWidth = 2;
  pen.lineCap = 'round';
  const place = (event) => {
    const box = canvas.getBoundingClientRect();
    const within = (value, most) => Math.min(most, Math.max(0, Math.round(value)));
    return [within((event.clientX - box.left) * canvas.width / box.width, canvas.width),
      within((event.clientY - box.top) * canvas.height / box.height, canvas.height)];
  };
  canvas.addEventListener('pointerdown', (event) => {
    canvas.setPointerCapture(event.pointerId);
    stroke = [place(event)];
    strokes.push(stroke);
  });
  canvas.addEventListener('pointermove', (event) => {
    if (!stroke) return;
    const [x, y] = place(event);
    const [fromX, fromY] = stroke[stroke.length - 1];
    if (x === fromX && y === fromY) return;
    pen.beginPath();
    pen.moveTo(fromX, fromY);
    pen.lineTo(x, y);
    pen.stroke();
    stroke.push([x, y]);
  });
  for (const end of ['pointerup', 'pointercancel']) {
    canvas.addEventListener(end, () => {
      stroke = null;
      field.value = strokes.map((one) => one.map((point) => point.join(',')).join(' ')).join(';');
    });
  }
  pad.querySelector('.wipe').addEventListener('click', () => {
    strokes = [];
    field.value = '';
    pen.clearRect(0, 0, canvas.width, canvas.height);
  });
}
