// Curves of several recordings over one another: as their loggers stamped them, and with the offsets as they are chosen or typed.
'use strict';
(async () => {
  const place = document.getElementById('clock-curves');
  if (!place || typeof uPlot === 'undefined') return;
  const words = place.dataset;
  const DASHES = [[], [6, 3], [2, 3], [10, 3, 2, 3]];
  const AROUND = 45;
  const answer = await fetch(words.from);
  if (!answer.ok) { place.hidden = false; place.textContent = words.failed; return; }
  const { unit, curves } = await answer.json();
  if (curves.length < 2) return;
  const make = (name, className, text) => {
    const element = document.createElement(name);
    if (className) element.className = className;
    if (text !== undefined) element.textContent = text;
    return element;
  };
  const minutes = (seconds) => {
    const tenths = Math.round(Math.abs(seconds) * 10);
    return (seconds < 0 && tenths ? '−' : '') + Math.floor(tenths / 600) + ':' + String(Math.floor(tenths % 600 / 10)).padStart(2, '0')
      + (tenths % 10 ? words.decimal + tenths % 10 : '');
  };
  const said = (seconds) => (seconds > 0 ? '+' : '') + String(seconds).replace('-', '−').replace('.', words.decimal) + ' s';
  const style = getComputedStyle(document.documentElement);
  const ink = (name) => style.getPropertyValue('--' + name).trim();

  /** Where the first curve changes fastest: there a second is seen best. */
  const { t, v } = curves[0];
  let steepest = 0;
  let middle = t[0];
  for (let i = 5; i < t.length; i++) {
    const slope = Math.abs((v[i] - v[i - 5]) / (t[i] - t[i - 5] || 1));
    if (slope > steepest) { steepest = slope; middle = t[i]; }
  }
  const first = Math.min(...curves.map((curve) => curve.t[0]));
  const last = Math.max(...curves.map((curve) => curve.t[curve.t.length - 1]));
  let isClose = true;

  const offset = (curve) => {
    const form = [...document.querySelectorAll('.clock-form')].find((one) => one.elements.file.value === curve.file);
    const way = form ? form.elements.way.value : 'found';
    if (way === 'offset') {
      const plain = form.elements.offset.value.trim().replace(/\s*s$/, '').replace('−', '-').replace(',', '.');
      return /^[+-]?\d+(\.\d+)?$/.test(plain) ? Number(plain) : undefined;
    }
    return curve.found === undefined || (form && curve.way !== way) ? (way === 'event' ? undefined : 0) : curve.found;
  };
  for (const curve of curves) {
    const form = [...document.querySelectorAll('.clock-form')].find((one) => one.elements.file.value === curve.file);
    curve.way = form ? form.elements.way.value : 'found';
  }
  const shifted = (shifts) => uPlot.join(curves.map((curve, i) => [curve.t.map((moment) => moment + (shifts[i] || 0) - first), curve.v]));
  const range = () => (isClose ? [middle - first - AROUND, middle - first + AROUND] : [0, last - first]);

  function chart(title) {
    const figure = make('figure', 'clock-figure');
    figure.append(make('figcaption', '', title));
    const host = make('div', 'clock-chart');
    host.setAttribute('role', 'img');
    host.setAttribute('aria-label', title + ': ' + curves.map((curve) => curve.file).join(', '));
    figure.append(host);
    place.append(figure);
    const axis = (more) => ({ stroke: ink('faint'), font: '12px Sheet, "DejaVu Sans", sans-serif', grid: { show: false }, ticks: { stroke: ink('line'), width: 1 }, ...more });
    const names = (u) => {
      const { ctx, bbox } = u;
      ctx.save();
      ctx.font = 12 * devicePixelRatio + 'px Sheet, "DejaVu Sans", sans-serif';
      ctx.fillStyle = ink('ink');
      ctx.textBaseline = 'top';
      curves.forEach((curve, i) => {
        const y = bbox.top + (4 + 16 * i) * devicePixelRatio;
        ctx.strokeStyle = ink('ink');
        ctx.setLineDash(DASHES[i % DASHES.length].map((part) => part * devicePixelRatio));
        ctx.beginPath();
        ctx.moveTo(bbox.left + 6 * devicePixelRatio, y + 7 * devicePixelRatio);
        ctx.lineTo(bbox.left + 34 * devicePixelRatio, y + 7 * devicePixelRatio);
        ctx.stroke();
        ctx.fillText(curve.file, bbox.left + 40 * devicePixelRatio, y);
      });
      ctx.restore();
    };
    return new uPlot({
      width: Math.max(260, place.clientWidth), height: 190, cursor: { show: false }, legend: { show: false }, select: { show: false },
      scales: { x: { time: false, range: () => range() }, y: { auto: true } },
      axes: [axis({ values: (u, splits) => splits.map(minutes) }), axis({ size: 56, label: unit, labelSize: 16, labelFont: 'italic 12px Sheet, "DejaVu Sans", sans-serif' })],
      series: [{}, ...curves.map((curve, i) => ({ stroke: ink('ink'), width: i ? 1.2 : 2, dash: DASHES[i % DASHES.length], spanGaps: true, points: { show: false } }))],
      hooks: { draw: [names] },
    }, shifted([]), host);
  }

  place.hidden = false;
  const before = chart(words.before);
  const after = chart(words.after);
  const told = make('p', 'hint');
  told.id = 'clock-words';
  told.setAttribute('role', 'status');
  const way = make('button', '', words.whole);
  way.type = 'button';
  way.addEventListener('click', () => {
    isClose = !isClose;
    way.textContent = isClose ? words.whole : words.closely;
    show();
    before.setData(shifted([]));
  });
  place.append(told, way);

  function show() {
    const shifts = curves.map(offset);
    after.setData(shifted(shifts));
    told.textContent = curves.map((curve, i) => curve.file + ': ' + (shifts[i] === undefined ? words.open : said(shifts[i]))).join('; ');
  }
  document.addEventListener('input', (event) => { if (event.target.closest('.clock-form')) show(); });
  new ResizeObserver(() => {
    for (const one of [before, after]) if (place.clientWidth > 0 && one.width !== place.clientWidth) one.setSize({ width: place.clientWidth, height: 190 });
  }).observe(place);
  // what the alignment found comes with what follows from an entry
  let timer;
  document.addEventListener('htmx:afterSettle', (event) => {
    if (!event.target || !event.target.closest || !event.target.closest('#follows')) return;
    clearTimeout(timer);
    timer = setTimeout(refreshed, 50);
  });
  async function refreshed() {
    const fresh = await fetch(words.from);
    if (!fresh.ok) return;
    for (const one of (await fresh.json()).curves) {
      const curve = curves.find((known) => known.file === one.file);
      const form = [...document.querySelectorAll('.clock-form')].find((other) => other.elements.file.value === one.file);
      if (curve) { curve.found = one.found; curve.way = form ? form.elements.way.value : 'found'; }
    }
    show();
  }
  show();
})();
