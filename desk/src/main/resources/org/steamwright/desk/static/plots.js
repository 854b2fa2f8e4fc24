// Curves of a run, or of several runs over one another: zoomed and panned by mouse, touch and keyboard, with a reading line.
// uPlot keeps the scales and axes; the curves are drawn here from thinned copies in which every extreme has stayed.
'use strict';
(() => {
  const place = document.getElementById('curves');
  if (!place || typeof uPlot === 'undefined') return;
  const words = place.dataset;
  const DASHES = [[], [6, 2], [1.5, 2], [9, 2, 1.5, 2], [4, 4], [12, 3], [6, 2, 1.5, 2, 1.5, 2]];
  const THINNING = 8;
  const DETAIL_MILLIS = 250;
  const SHARPEN_MILLIS = 120;
  const SLICE_MILLIS = 8;
  const DIRECT_POINTS = 60000;

  const make = (name, className, text) => {
    const element = document.createElement(name);
    if (className) element.className = className;
    if (text !== undefined) element.textContent = text;
    return element;
  };
  const figure = (value, decimals) => value.toFixed(decimals).replace('-', '−').replace('.', words.decimal);
  const minutes = (seconds) => {
    const tenths = Math.round(Math.abs(seconds) * 10);
    const rest = tenths % 600;
    const tail = rest % 10 ? words.decimal + (rest % 10) : '';
    return (seconds < 0 && tenths > 0 ? '−' : '') + Math.floor(tenths / 600) + ':' + String(Math.floor(rest / 10)).padStart(2, '0') + tail;
  };

  /** A curve with copies of itself, each with a quarter of the points; lowest and highest of every group stay. */
  class Curve {
    constructor(facts, t, v) {
      Object.assign(this, facts);
      this.levels = [{ t, v }];
    }
    level(depth) {
      while (this.levels.length <= depth) {
        const { t, v } = this.levels[this.levels.length - 1];
        const nt = [];
        const nv = [];
        for (let i = 0; i < t.length; i += THINNING) {
          const end = Math.min(t.length, i + THINNING);
          let lowest = -1;
          let highest = -1;
          let hole = -1;
          for (let k = i; k < end; k++) {
            if (Number.isNaN(v[k])) { hole = k; continue; }
            if (lowest < 0 || v[k] < v[lowest]) lowest = k;
            if (highest < 0 || v[k] > v[highest]) highest = k;
          }
          const kept = [lowest, highest, hole].filter((k, n, all) => k >= 0 && all.indexOf(k) === n).sort((a, b) => a - b);
          for (const k of kept) { nt.push(t[k]); nv.push(v[k]); }
        }
        this.levels.push({ t: Float64Array.from(nt), v: Float64Array.from(nv) });
      }
      return this.levels[depth];
    }
    /** The copy that shows a stretch with at most so many points, and where the stretch lies in it. */
    part(from, to, most) {
      for (let depth = 0; ; depth++) {
        const { t, v } = this.level(depth);
        const first = Math.max(0, after(t, from) - 1);
        const last = Math.min(t.length - 1, after(t, to) + 1);
        if (last - first <= most || t.length < 4 * THINNING) return { t, v, first, last };
      }
    }
    /** The sample nearest to a moment; NaN outside of the recording and in its holes. */
    at(moment) {
      const { t, v } = this.levels[0];
      if (!t.length || moment < t[0] - 1e-6 || moment > t[t.length - 1] + 1e-6) return NaN;
      const i = after(t, moment);
      const k = i > 0 && (i === t.length || moment - t[i - 1] <= t[i] - moment) ? i - 1 : i;
      return v[k];
    }
  }

  /** Index of the first moment at or after one. */
  function after(t, moment) {
    let low = 0;
    let high = t.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (t[middle] < moment) low = middle + 1; else high = middle;
    }
    return low;
  }

  function curvesOf(data, shift, run) {
    const axes = [];
    let dash = 0;
    return data.curves.map((facts) => {
      if (facts.t) axes.push(Float64Array.from(facts.t, (moment) => moment - shift));
      const t = facts.t ? axes[axes.length - 1] : axes[facts.sharedTime];
      const v = Float64Array.from(facts.v, (value) => (value === null ? NaN : value));
      const isLight = facts.unit === '°C' && !facts.coldest && facts.role !== 'theoretical';
      return new Curve({
        name: facts.name, label: facts.role === 'theoretical' ? words.theoretical || facts.name : facts.name, role: facts.role, place: facts.place, unit: facts.unit, coldest: Boolean(facts.coldest),
        doubt: facts.doubt || 0, run, dash: isLight ? DASHES[dash++ % DASHES.length] : [],
      }, t, v);
    });
  }

  const state = {
    first: 0, last: 1, from: 0, to: 1, low: undefined, high: undefined, phases: [], plateau: undefined, holding: undefined,
    points: [], findings: [], curves: [], base: [], window: undefined, thinned: false, moment: undefined, shown: undefined,
    runs: [], facts: {}, isCompare: false, ranges: {}, stated: [], moving: undefined,
  };
  const panels = [];
  let ink = {};
  let frame;

  function inks() {
    const style = getComputedStyle(document.documentElement);
    for (const name of ['ink', 'paper', 'faint', 'line', 'wash']) ink[name] = style.getPropertyValue('--' + name).trim();
  }
  const font = (size, kind) => (kind || '') + ' ' + size * devicePixelRatio + 'px Sheet, "DejaVu Sans", sans-serif';

  const inPanel = (unit) => state.curves.filter((curve) => curve.unit === unit);
  const chamber = () => state.curves.filter((curve) => curve.unit === '°C' && curve.role !== 'ambient');

  function extent(curves, from, to) {
    let low = Infinity;
    let high = -Infinity;
    for (const curve of curves) {
      const { t, v, first, last } = curve.part(from, to, 400);
      for (let i = first; i <= last; i++) {
        if (t[i] >= from && t[i] <= to && v[i] === v[i]) {
          if (v[i] < low) low = v[i];
          if (v[i] > high) high = v[i];
        }
      }
    }
    return low <= high ? [low, high] : [0, 1];
  }

  function isAtPlateau() {
    if (!state.plateau) return false;
    const shared = Math.min(state.to, state.plateau.to) - Math.max(state.from, state.plateau.from);
    return shared > 0.5 * (state.to - state.from);
  }

  /** Of many runs the two ranges stay the same while the view moves, so that their picture can be moved with it. */
  function temperatures() {
    if (!state.isCompare) return rangeOf();
    const key = isAtPlateau() ? 'plateau' : 'whole';
    if (!state.ranges[key]) {
      const { from, to } = state;
      [state.from, state.to] = key === 'plateau' ? [state.plateau.from, state.plateau.to] : [state.first, state.last];
      state.ranges[key] = rangeOf();
      Object.assign(state, { from, to });
    }
    return state.ranges[key];
  }

  function rangeOf() {
    if (isAtPlateau()) {
      const [low, high] = extent(chamber(), Math.max(state.from, state.plateau.from + 15), Math.min(state.to, state.plateau.to - 2));
      return [
        Math.max(Math.min(state.low - 1, low - 0.4), state.low - 12),
        Math.min(Math.max((state.high === undefined ? state.low + 3 : state.high) + 0.6, high + 0.4), state.low + 15),
      ];
    }
    const isWide = state.to - state.from > 0.5 * (state.last - state.first);
    const [low, high] = extent(isWide ? inPanel('°C') : chamber(), state.from, state.to);
    const around = Math.max(0.2, 0.06 * (high - low));
    return [low - around, high + around];
  }

  function pressures() {
    const [low, high] = extent(inPanel('kPa'), state.from, state.to);
    const around = Math.max(0.1, 0.08 * (high - low));
    return [low - around, high + around];
  }

  // drawing

  function trace(ctx, box, x, y, curve, most) {
    const { t, v, first, last } = curve.part(x.min, x.max, most);
    const kx = box.width / (x.max - x.min);
    const ky = box.height / (y.max - y.min);
    let isDown = false;
    ctx.beginPath();
    for (let i = first; i <= last; i++) {
      const value = v[i];
      if (value !== value) { isDown = false; continue; }
      const px = box.left + (t[i] - x.min) * kx;
      const py = box.top + box.height - (value - y.min) * ky;
      if (isDown) ctx.lineTo(px, py); else { ctx.moveTo(px, py); isDown = true; }
    }
    ctx.stroke();
  }

  function pen(ctx, curve) {
    const isShown = state.shown && state.shown.channels.includes(curve.name);
    ctx.strokeStyle = curve.role === 'theoretical' ? ink.faint : ink.ink;
    ctx.globalAlpha = state.isCompare && !curve.coldest ? 0.45 : 1;
    ctx.lineWidth = devicePixelRatio * (curve.coldest || isShown ? (state.isCompare ? 1.4 : 2.4) : curve.role === 'theoretical' ? 0.7 : state.isCompare ? 0.6 : 1.1);
    ctx.setLineDash(curve.coldest || isShown || state.isCompare ? [] : curve.dash.map((part) => part * devicePixelRatio));
    ctx.lineJoin = 'round';
  }

  function clipped(u, draw) {
    const { ctx, bbox } = u;
    ctx.save();
    ctx.beginPath();
    ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
    ctx.clip();
    draw(ctx, bbox);
    ctx.restore();
  }

  function below(panel, u) {
    clipped(u, (ctx, box) => {
      const x = (moment) => u.valToPos(moment, 'x', true);
      const y = (value) => u.valToPos(value, 'y', true);
      if (panel.unit === '°C' && state.low !== undefined) {
        const top = state.high === undefined ? box.top : y(state.high);
        ctx.fillStyle = ink.wash;
        ctx.fillRect(box.left, top, box.width, y(state.low) - top);
        ctx.strokeStyle = ink.faint;
        ctx.lineWidth = devicePixelRatio;
        for (const limit of [state.low, state.high]) {
          if (limit === undefined) continue;
          ctx.beginPath();
          ctx.moveTo(box.left, y(limit));
          ctx.lineTo(box.left + box.width, y(limit));
          ctx.stroke();
        }
        if (!state.isCompare && isAtPlateau()) halo(ctx, u);
      }
      if (state.shown && state.shown.from !== undefined && state.shown.to !== undefined) {
        hatch(ctx, x(state.shown.from), box.top, x(state.shown.to) - x(state.shown.from), box.height);
      }
    });
  }

  /** Doubt of the coldest curve, one expanded uncertainty either side. */
  function halo(ctx, u) {
    const curve = state.curves.find((one) => one.coldest && one.doubt > 0);
    if (!curve) return;
    const height = Math.abs(u.valToPos(curve.doubt, 'y', true) - u.valToPos(0, 'y', true));
    ctx.save();
    ctx.strokeStyle = ink.line;
    ctx.globalAlpha = 0.5;
    ctx.lineWidth = 2 * height;
    trace(ctx, u.bbox, u.scales.x, u.scales.y, curve, u.bbox.width);
    ctx.restore();
  }

  function hatch(ctx, left, top, width, height) {
    const step = 7 * devicePixelRatio;
    const size = Math.max(width, 2 * devicePixelRatio);
    ctx.save();
    ctx.beginPath();
    ctx.rect(left, top, size, height);
    ctx.clip();
    ctx.strokeStyle = ink.line;
    ctx.lineWidth = devicePixelRatio;
    ctx.beginPath();
    for (let x = left - height; x < left + size; x += step) {
      ctx.moveTo(x, top + height);
      ctx.lineTo(x + height, top);
    }
    ctx.stroke();
    ctx.restore();
  }

  function above(panel, u) {
    const curves = inPanel(panel.unit);
    const most = Math.round(2 * u.bbox.width / devicePixelRatio);
    clipped(u, (ctx, box) => {
      if (curves.length * Math.min(most, 3000) > DIRECT_POINTS) layered(panel, u, curves);
      else for (const curve of heavyLast(curves)) { pen(ctx, curve); trace(ctx, box, u.scales.x, u.scales.y, curve, most); }
      ctx.globalAlpha = 1;
      ctx.setLineDash([]);
      if (panel.unit === '°C' && state.holding && !state.isCompare) bracket(ctx, u);
      if (panel.unit === 'kPa') leakPoints(ctx, u);
      if (state.shown && state.shown.at !== undefined) rings(ctx, u, curves);
      if (!state.isCompare) borders(ctx, u, panel === panels[0]);
    });
    labels(panel, u, curves);
    if (panel === panels[panels.length - 1]) ruler(u);
  }

  const heavyLast = (curves) => [...curves].sort((a, b) => Number(a.coldest) - Number(b.coldest));

  function bracket(ctx, u) {
    const left = u.valToPos(state.holding.from, 'x', true);
    const right = u.valToPos(state.holding.to, 'x', true);
    const top = u.bbox.top + 14 * devicePixelRatio;
    const foot = 4 * devicePixelRatio;
    ctx.strokeStyle = ink.ink;
    ctx.lineWidth = devicePixelRatio;
    ctx.beginPath();
    ctx.moveTo(left, top + foot); ctx.lineTo(left, top); ctx.lineTo(right, top); ctx.lineTo(right, top + foot);
    ctx.stroke();
    const text = words.holding + ' ' + state.holding.length;
    ctx.font = font(12, 'italic');
    if (ctx.measureText(text).width < right - left) {
      ctx.fillStyle = ink.ink;
      ctx.textAlign = 'center';
      ctx.textBaseline = 'bottom';
      ctx.fillText(text, (Math.max(left, u.bbox.left) + Math.min(right, u.bbox.left + u.bbox.width)) / 2, top - 1);
    }
  }

  /** Stated borders as full lines, the found ones dashed beside them; the one that is being moved has a grip. */
  function borders(ctx, u, isFirst) {
    const { bbox } = u;
    const upright = (moment, width, dash) => {
      const x = u.valToPos(moment, 'x', true);
      ctx.strokeStyle = ink.ink;
      ctx.lineWidth = width * devicePixelRatio;
      ctx.setLineDash(dash.map((part) => part * devicePixelRatio));
      ctx.beginPath();
      ctx.moveTo(x, bbox.top); ctx.lineTo(x, bbox.top + bbox.height);
      ctx.stroke();
      ctx.setLineDash([]);
      return x;
    };
    const name = (text, x) => {
      const isRight = x > bbox.left + bbox.width / 2;
      ctx.font = font(12, 'italic');
      ctx.fillStyle = ink.ink;
      ctx.textAlign = isRight ? 'right' : 'left';
      ctx.textBaseline = 'bottom';
      ctx.fillText(text, x + (isRight ? -5 : 5) * devicePixelRatio, bbox.top + bbox.height - 4 * devicePixelRatio);
    };
    for (const border of state.stated) {
      if (state.moving && state.moving.name === border.phase + '/' + border.end) continue;
      if (border.found !== undefined) upright(border.found, 1, [4, 4]);
      const x = upright(border.at, 1.6, []);
      if (isFirst) name(border.word + ', ' + words.stated, x);
    }
    if (!state.moving || state.moving.at === undefined) return;
    if (state.moving.found !== undefined) upright(state.moving.found, 1, [4, 4]);
    const x = upright(state.moving.at, 2.2, []);
    const half = 6 * devicePixelRatio;
    ctx.fillStyle = ink.paper;
    ctx.fillRect(x - half, bbox.top + bbox.height / 2 - half, 2 * half, 2 * half);
    ctx.strokeRect(x - half, bbox.top + bbox.height / 2 - half, 2 * half, 2 * half);
    if (isFirst) name(state.moving.words, x);
  }

  function leakPoints(ctx, u) {
    state.points.forEach((moment, i) => {
      const curve = inPanel('kPa')[0];
      const value = curve ? curve.at(moment) : NaN;
      if (value !== value) return;
      ring(ctx, u, moment, value);
      ctx.font = font(12);
      ctx.fillStyle = ink.ink;
      ctx.textAlign = 'left';
      ctx.textBaseline = 'bottom';
      ctx.fillText('p' + (i + 1), u.valToPos(moment, 'x', true) + 7 * devicePixelRatio, u.valToPos(value, 'y', true) - 4);
    });
  }

  function ring(ctx, u, moment, value) {
    ctx.strokeStyle = ink.ink;
    ctx.lineWidth = 2 * devicePixelRatio;
    ctx.beginPath();
    ctx.arc(u.valToPos(moment, 'x', true), u.valToPos(value, 'y', true), 5 * devicePixelRatio, 0, 2 * Math.PI);
    ctx.stroke();
  }

  function rings(ctx, u, curves) {
    for (const curve of curves) {
      if (!state.shown.channels.includes(curve.name)) continue;
      const value = curve.at(state.shown.at);
      if (value === value) ring(ctx, u, state.shown.at, value);
    }
  }

  /** Names where the curves end, and the numbers of the band among them; pushed apart so that none covers another. */
  function labels(panel, u, curves) {
    const { ctx, bbox } = u;
    const step = 14 * devicePixelRatio;
    const named = state.isCompare
      ? (state.runs.length > 12 ? [] : curves.filter((curve) => curve.coldest).map((curve) => [curve, String(curve.run)]))
      : curves.map((curve) => [curve, curve.label]);
    const list = named.map(([curve, text]) => {
      const { t, v } = curve.levels[0];
      let i = Math.min(t.length - 1, after(t, state.to));
      while (i > 0 && (t[i] > state.to || v[i] !== v[i])) i--;
      return { text, isBold: curve.coldest, wanted: u.valToPos(v[i], 'y', true) };
    });
    if (panel.unit === '°C') {
      for (const limit of [state.low, state.high]) {
        if (limit !== undefined && limit > u.scales.y.min && limit < u.scales.y.max) {
          list.push({ text: figure(limit, limit % 1 ? 1 : 0) + ' °C', isLimit: true, wanted: u.valToPos(limit, 'y', true) });
        }
      }
    }
    const shown = list.filter((label) => label.wanted === label.wanted);
    for (const label of shown) label.y = Math.max(bbox.top + 5, Math.min(bbox.top + bbox.height - 5, label.wanted));
    shown.sort((a, b) => a.y - b.y);
    const room = Math.min(step, bbox.height / Math.max(1, shown.length));
    for (let i = 1; i < shown.length; i++) shown[i].y = Math.max(shown[i].y, shown[i - 1].y + room);
    let floor = bbox.top + bbox.height;
    for (let i = shown.length - 1; i >= 0; i--) { shown[i].y = Math.min(shown[i].y, floor); floor = shown[i].y - room; }
    ctx.save();
    ctx.textAlign = 'left';
    ctx.textBaseline = 'middle';
    const left = bbox.left + bbox.width + 8 * devicePixelRatio;
    const width = u.ctx.canvas.width - left - 2;
    for (const label of shown) {
      ctx.font = font(12, label.isBold ? 'bold' : label.isLimit ? 'italic' : '');
      ctx.fillStyle = label.isLimit ? ink.faint : ink.ink;
      let text = label.text;
      while (text.length > 2 && ctx.measureText(text).width > width) text = text.slice(0, -2) + '…';
      ctx.fillText(text, left, label.y);
    }
    ctx.restore();
  }

  /** Phases with words under the axis of time, and the clock on the wall at both ends. */
  function ruler(u) {
    const { ctx, bbox } = u;
    const top = bbox.top + bbox.height + 30 * devicePixelRatio;
    const tick = 5 * devicePixelRatio;
    const right = bbox.left + bbox.width;
    ctx.save();
    ctx.strokeStyle = ink.ink;
    ctx.fillStyle = ink.ink;
    ctx.lineWidth = devicePixelRatio;
    ctx.font = font(12, 'italic');
    ctx.textAlign = 'center';
    ctx.textBaseline = 'middle';
    for (const phase of state.phases) {
      const from = Math.max(bbox.left, u.valToPos(phase.from, 'x', true));
      const to = Math.min(right, u.valToPos(phase.to, 'x', true));
      if (to <= from) continue;
      ctx.beginPath();
      ctx.moveTo(from, top - tick); ctx.lineTo(from, top + tick);
      ctx.moveTo(to, top - tick); ctx.lineTo(to, top + tick);
      const width = ctx.measureText(phase.word).width;
      const middle = (from + to) / 2;
      if (width + 4 * tick < to - from) {
        ctx.moveTo(from, top); ctx.lineTo(middle - width / 2 - tick, top);
        ctx.moveTo(middle + width / 2 + tick, top); ctx.lineTo(to, top);
        ctx.fillText(phase.word, middle, top);
      } else {
        ctx.moveTo(from, top); ctx.lineTo(to, top);
      }
      ctx.stroke();
    }
    if (state.facts.secondOfDay !== undefined) {
      ctx.font = font(11.5);
      ctx.fillStyle = ink.faint;
      ctx.textAlign = 'left';
      ctx.fillText(wall(state.from), bbox.left, top + 18 * devicePixelRatio);
      ctx.textAlign = 'right';
      ctx.fillText(wall(state.to) + ' ' + state.facts.zone, right, top + 18 * devicePixelRatio);
    }
    ctx.restore();
  }

  function wall(moment) {
    const changed = (state.facts.clockChanges || []).filter((change) => change.at <= moment).reduce((sum, change) => sum + change.by, 0);
    const second = ((Math.round(state.facts.secondOfDay + moment + changed) % 86400) + 86400) % 86400;
    return [Math.floor(second / 3600), Math.floor(second / 60) % 60, second % 60].map((part) => String(part).padStart(2, '0')).join(':');
  }

  // many curves: while the view moves a picture of them is moved, and drawn sharp again, slice by slice, when it rests

  function covers(layer, x, y) {
    return layer && layer.min <= x.min + 1e-9 && layer.max >= x.max - 1e-9 && layer.low <= y.min + 1e-9 && layer.high >= y.max - 1e-9;
  }

  function layered(panel, u, curves) {
    const { x, y } = u.scales;
    const layer = covers(panel.sharp, x, y) ? panel.sharp : panel.whole;
    if (layer) {
      const kx = layer.canvas.width / (layer.max - layer.min);
      const ky = layer.canvas.height / (layer.high - layer.low);
      u.ctx.drawImage(layer.canvas, (x.min - layer.min) * kx, (layer.high - y.max) * ky, (x.max - x.min) * kx, (y.max - y.min) * ky,
        u.bbox.left, u.bbox.top, u.bbox.width, u.bbox.height);
    }
    const key = [x.min, x.max, y.min, y.max, u.bbox.width, u.bbox.height, state.curves.length, ink.ink].join();
    if (panel.key !== key) {
      panel.key = key;
      clearTimeout(panel.timer);
      panel.timer = setTimeout(() => sharpen(panel, u, curves, key), panel.whole ? SHARPEN_MILLIS : 0);
    }
  }

  function sharpen(panel, u, curves, key) {
    const { x, y } = u.scales;
    const isFirst = !panel.whole;
    const side = isFirst ? 0 : 0.5 * (x.max - x.min);
    const canvas = document.createElement('canvas');
    canvas.width = Math.round((isFirst ? 1 : 2) * u.bbox.width);
    canvas.height = Math.round(u.bbox.height);
    const layer = { canvas, min: x.min - side, max: x.max + side, low: y.min, high: y.max };
    const ctx = canvas.getContext('2d');
    const box = { left: 0, top: 0, width: canvas.width, height: canvas.height };
    const most = Math.round((isFirst ? 1 : 2) * u.bbox.width / devicePixelRatio);
    const ordered = heavyLast(curves);
    let next = 0;
    const slice = () => {
      if (panel.key !== key) return;
      const end = performance.now() + SLICE_MILLIS;
      while (next < ordered.length && performance.now() < end) {
        pen(ctx, ordered[next]);
        trace(ctx, box, { min: layer.min, max: layer.max }, { min: layer.low, max: layer.high }, ordered[next], most);
        next++;
      }
      if (next < ordered.length) { requestAnimationFrame(slice); return; }
      if (isFirst) panel.whole = layer; else panel.sharp = layer;
      u.redraw(false, false);
    };
    slice();
  }

  // view

  let isAsked = false;
  function ask() {
    if (isAsked) return;
    isAsked = true;
    requestAnimationFrame(() => { isAsked = false; show(); });
  }

  function show() {
    for (const panel of panels) {
      const [low, high] = panel.range();
      panel.u.batch(() => {
        panel.u.setScale('x', { min: state.from, max: state.to });
        panel.u.setScale('y', { min: low, max: high });
      });
    }
    place.dataset.shownFrom = state.from;
    place.dataset.shownTo = state.to;
    line();
    detail();
  }

  function look(from, to) {
    const whole = state.last - state.first;
    const length = Math.max(Math.min(2, whole), Math.min(whole, to - from));
    const begin = Math.max(state.first, Math.min(state.last - length, from + (to - from - length) / 2));
    state.from = begin;
    state.to = begin + length;
    ask();
  }

  function zoom(factor, around) {
    const middle = around === undefined ? (state.from + state.to) / 2 : around;
    look(middle - (middle - state.from) * factor, middle + (state.to - middle) * factor);
  }
  const pan = (share) => {
    const by = Math.max(state.first - state.from, Math.min(state.last - state.to, share * (state.to - state.from)));
    look(state.from + by, state.to + by);
  };
  const whole = () => look(state.first, state.last);
  function plateau() {
    if (!state.plateau) return;
    const around = Math.max(20, 0.12 * (state.plateau.to - state.plateau.from));
    look(state.plateau.from - around, state.plateau.to + around);
  }

  // what a long recording left out is fetched when it can be seen

  let timer;
  function detail() {
    if (!state.thinned) return;
    const isCovered = state.window && state.from >= state.window[0] && state.to <= state.window[1];
    if (state.window && !isCovered) { state.curves = state.base; state.window = undefined; }
    clearTimeout(timer);
    const loaded = state.window ? state.window[1] - state.window[0] : state.last - state.first;
    if (isCovered && (!state.isWindowThinned || state.to - state.from > 0.4 * loaded)) return;
    if (!state.window && state.to - state.from > 0.6 * loaded) return;
    timer = setTimeout(async () => {
      const side = 0.5 * (state.to - state.from);
      const stretch = [Math.max(state.first, state.from - side), Math.min(state.last, state.to + side)];
      try {
        const data = await fetched(words.traces + '?from=' + stretch[0].toFixed(3) + '&to=' + stretch[1].toFixed(3));
        if (state.from < stretch[0] || state.to > stretch[1]) return;
        state.curves = curvesOf(data, 0);
        state.window = stretch;
        state.isWindowThinned = data.thinned;
        ask();
      } catch (failed) {
        tell(failed);
      }
    }, DETAIL_MILLIS);
  }

  async function fetched(address) {
    const answer = await fetch(address, { headers: { Accept: 'application/json' } });
    if (!answer.ok) throw new Error(String(answer.status));
    return answer.json();
  }

  function tell(failed) {
    const told = place.querySelector('.act') || place.appendChild(make('p', 'act'));
    told.setAttribute('role', 'alert');
    told.textContent = words.failed;
    console.warn(failed);
  }

  // reading line

  let table;
  let caption;
  let cells = [];
  function readings() {
    const region = make('div', 'table readings');
    region.tabIndex = 0;
    region.setAttribute('role', 'region');
    region.setAttribute('aria-label', words.reading);
    table = make('table');
    caption = table.createCaption();
    caption.setAttribute('aria-live', 'polite');
    const head = table.createTHead().insertRow();
    const titles = state.isCompare ? [words.point, words.value, words.beside] : [words.point, words.place, words.value, words.beside];
    titles.forEach((text, i) => {
      const cell = make('th', i > (state.isCompare ? 0 : 1) ? 'figure' : '', text);
      cell.scope = 'col';
      head.append(cell);
    });
    const body = table.createTBody();
    cells = [];
    const rows = state.isCompare ? state.runs.map((run) => ({ run })) : state.base.map((curve) => ({ curve }));
    for (const one of rows) {
      const row = body.insertRow();
      const name = make('th', '', one.curve ? one.curve.label + (one.curve.coldest ? ' (' + words.coldest + ')' : '') : String(one.run.number));
      name.scope = 'row';
      row.append(name);
      if (one.curve) {
        if (one.curve.coldest) row.className = 'heavy';
        row.append(make('td', '', one.curve.place));
      }
      const value = row.appendChild(make('td', 'figure'));
      const beside = row.appendChild(make('td', 'figure'));
      cells.push({ ...one, value, beside });
    }
    region.append(table);
    return region;
  }

  function read() {
    if (state.moment === undefined || !table) return;
    const band = state.low === undefined ? '' : ' · ' + words.band + ' ' + figure(state.low, 1)
      + (state.high === undefined ? '' : ' – ' + figure(state.high, 1)) + ' °C';
    const phase = state.phases.find((one) => state.moment >= one.from && state.moment <= one.to);
    caption.textContent = words.reading + ' ' + minutes(state.moment)
      + (state.facts.secondOfDay === undefined ? '' : ' (' + wall(state.moment) + ')') + (phase ? ', ' + phase.word : '') + band;
    const set = (cell, text) => { if (cell.textContent !== text) cell.textContent = text; };
    if (state.isCompare) {
      for (const { run, value, beside } of cells) {
        let low = Infinity;
        let high = -Infinity;
        let coldest = '';
        let hottest = '';
        for (const curve of run.chamber) {
          const at = curve.at(state.moment);
          if (at < low) { low = at; coldest = curve.name; }
          if (at > high) { high = at; hottest = curve.name; }
        }
        set(value, coldest ? figure(low, 2) + ' °C ' + coldest : '–');
        set(beside, hottest ? figure(high, 2) + ' °C ' + hottest : '–');
      }
      return;
    }
    const theoretical = state.curves.find((curve) => curve.role === 'theoretical');
    const steam = theoretical ? theoretical.at(state.moment) : NaN;
    for (const { curve: base, value, beside } of cells) {
      const curve = state.curves.find((one) => one.name === base.name) || base;
      const at = curve.at(state.moment);
      set(value, at === at ? figure(at, 2) + ' ' + curve.unit : '–');
      const isBeside = curve.unit === '°C' && curve !== theoretical && curve.role !== 'ambient' && at === at && steam === steam;
      set(beside, isBeside ? (at >= steam ? '+' : '') + figure(at - steam, 2) + ' K' : '');
    }
  }

  function line() {
    for (const { u, mark } of panels) {
      const isSeen = state.moment !== undefined && state.moment >= state.from && state.moment <= state.to;
      mark.hidden = !isSeen;
      if (isSeen) mark.style.left = u.valToPos(state.moment, 'x') + 'px';
    }
  }

  let isReading = false;
  function setMoment(moment) {
    state.moment = Math.max(state.first, Math.min(state.last, moment));
    line();
    if (isReading) return;
    isReading = true;
    requestAnimationFrame(() => { isReading = false; read(); });
  }

  function step(direction, samples) {
    const curve = state.curves.find((one) => one.coldest) || state.curves[0];
    if (!curve) return;
    const { t } = curve.levels[0];
    if (state.moment === undefined) { setMoment((state.from + state.to) / 2); return; }
    const i = after(t, state.moment - 1e-6);
    setMoment(t[Math.max(0, Math.min(t.length - 1, i + direction * samples))]);
    if (state.moment < state.from) pan((state.moment - state.from) / (state.to - state.from) - 0.1);
    if (state.moment > state.to) pan((state.moment - state.to) / (state.to - state.from) + 0.1);
  }

  // hands

  function hands(panel) {
    const { u } = panel;
    const over = u.over;
    const fingers = new Map();
    const moment = (event) => state.from + (event.clientX - over.getBoundingClientRect().left) / over.clientWidth * (state.to - state.from);
    let start;
    let mark;
    const isNearGrip = (event) => state.moving !== undefined && state.moving.at !== undefined
      && Math.abs(u.valToPos(state.moving.at, 'x') - (event.clientX - over.getBoundingClientRect().left)) <= 14;
    over.addEventListener('pointerdown', (event) => {
      if (event.button !== 0) return;
      fingers.set(event.pointerId, event.clientX);
      over.setPointerCapture(event.pointerId);
      frame.focus({ preventScroll: true });
      start = { x: event.clientX, from: state.from, to: state.to, moment: moment(event), isMark: event.shiftKey, isGrip: isNearGrip(event) };
      setMoment(moment(event));
    });
    over.addEventListener('pointermove', (event) => {
      if (!fingers.has(event.pointerId)) {
        if (event.pointerType === 'mouse') setMoment(moment(event));
        return;
      }
      const before = new Map(fingers);
      fingers.set(event.pointerId, event.clientX);
      const perPixel = (start.to - start.from) / over.clientWidth;
      if (fingers.size === 2) {
        const spread = (places) => { const [a, b] = [...places.values()]; return Math.max(20, Math.abs(a - b)); };
        const [a, b] = [...fingers.values()];
        zoom(spread(before) / spread(fingers), moment({ clientX: (a + b) / 2 }));
        start = { ...start, x: event.clientX, from: state.from, to: state.to };
      } else if (start.isGrip) {
        moved(moment(event));
      } else if (start.isMark) {
        mark = mark || over.appendChild(make('div', 'stretch'));
        const left = over.getBoundingClientRect().left;
        mark.style.left = Math.min(start.x, event.clientX) - left + 'px';
        mark.style.width = Math.abs(event.clientX - start.x) + 'px';
      } else {
        const by = (start.x - event.clientX) * perPixel;
        const room = Math.max(state.first - start.from, Math.min(state.last - start.to, by));
        look(start.from + room, start.to + room);
      }
    });
    const up = (event) => {
      if (!fingers.delete(event.pointerId)) return;
      if (mark) {
        mark.remove();
        mark = undefined;
        const end = moment(event);
        if (Math.abs(event.clientX - start.x) > 5) look(Math.min(start.moment, end), Math.max(start.moment, end));
      }
      if (fingers.size === 1) start = { ...start, x: [...fingers.values()][0], from: state.from, to: state.to, isMark: false };
    };
    over.addEventListener('pointerup', up);
    over.addEventListener('pointercancel', up);
    over.addEventListener('dblclick', (event) => zoom(0.5, moment(event)));
    over.addEventListener('wheel', (event) => {
      if (!event.ctrlKey && !frame.contains(document.activeElement)) return;
      event.preventDefault();
      if (Math.abs(event.deltaX) > Math.abs(event.deltaY)) pan(event.deltaX / 1000);
      else zoom(Math.exp(Math.max(-0.5, Math.min(0.5, event.deltaY / 400))), moment(event));
    }, { passive: false });
  }

  function keys(event) {
    if (event.altKey || event.metaKey || (event.target !== frame && event.target.tagName === 'BUTTON')) return;
    const acts = {
      ArrowLeft: () => (event.shiftKey ? pan(-0.1) : step(-1, event.ctrlKey ? 10 : 1)),
      ArrowRight: () => (event.shiftKey ? pan(0.1) : step(1, event.ctrlKey ? 10 : 1)),
      PageUp: () => pan(-0.8),
      PageDown: () => pan(0.8),
      '+': () => zoom(0.7, state.moment),
      '=': () => zoom(0.7, state.moment),
      '-': () => zoom(1 / 0.7, state.moment),
      Home: whole,
      b: () => { if (state.moving && state.moment !== undefined) moved(state.moment); },
      B: () => { if (state.moving && state.moment !== undefined) moved(state.moment); },
      p: plateau,
      P: plateau,
    };
    const act = acts[event.key];
    if (act) { event.preventDefault(); act(); }
  }

  // putting it up

  function panelOf(host, unit, height, isLowest, range) {
    const axis = (more) => ({
      stroke: () => ink.faint, font: '12px Sheet, "DejaVu Sans", sans-serif', ticks: { stroke: () => ink.line, width: 1, size: 5 },
      grid: { show: false }, ...more,
    });
    const panel = { unit, range };
    const [low, high] = range();
    const u = new uPlot({
      width: host.clientWidth, height, padding: [16, host.clientWidth < 500 ? 64 : 116, 0, 0],
      cursor: { show: false }, legend: { show: false }, select: { show: false },
      scales: { x: { time: false, auto: false, min: state.from, max: state.to }, y: { auto: false, min: low, max: high } },
      axes: [
        axis({
          size: isLowest ? 66 : 8, space: 64, gap: 3, incrs: [0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600, 7200, 14400, 36000, 86400],
          values: (self, splits) => (isLowest ? splits.map(minutes) : splits.map(() => '')),
        }),
        axis({
          size: 52, space: 34, grid: { show: true, stroke: () => ink.line, width: 0.4 },
          values: (self, splits) => splits.map((value) => figure(value, splits.length > 1 && splits[1] - splits[0] < 1 ? (splits[1] - splits[0] < 0.1 ? 2 : 1) : 0)),
          label: unit === '°C' ? '°C' : 'kPa', labelSize: 16, labelGap: 0, labelFont: 'italic 12px Sheet, "DejaVu Sans", sans-serif',
        }),
      ],
      series: [{}, { paths: () => null, points: { show: false } }],
      hooks: { drawClear: [(self) => below(panel, self)], draw: [(self) => above(panel, self)] },
    }, [[state.first, state.last], [null, null]], host);
    panel.u = u;
    panel.mark = u.over.appendChild(make('div', 'moment'));
    panel.mark.hidden = true;
    panels.push(panel);
  }

  function put() {
    inks();
    frame = make('div', 'frame');
    frame.tabIndex = 0;
    frame.setAttribute('role', 'group');
    frame.setAttribute('aria-label', words.label);
    frame.setAttribute('aria-describedby', 'curves-keys');
    const host = make('div', 'panel');
    frame.append(host);
    const ways = make('div', 'ways');
    const acts = [[words.whole, whole], ...(state.plateau ? [[words.plateau, plateau]] : []), [words.closer, () => zoom(0.6, state.moment)],
      [words.wider, () => zoom(1 / 0.6, state.moment)], [words.earlier, () => pan(-0.4)], [words.later, () => pan(0.4)]];
    for (const [text, act] of acts) {
      const button = make('button', '', text);
      button.type = 'button';
      button.addEventListener('click', act);
      ways.append(button);
    }
    const hint = make('p', 'hint', words.keys);
    hint.id = 'curves-keys';
    place.replaceChildren(frame, ways, hint, readings());
    place.classList.add('is-drawn');
    const hasTemperature = inPanel('°C').length > 0;
    const hasPressure = inPanel('kPa').length > 0 && !state.isCompare;
    const room = Math.max(260, Math.min(420, innerHeight * 0.42));
    if (hasTemperature && !state.facts.leak) panelOf(host, '°C', room + (hasPressure ? 0 : 66), !hasPressure, temperatures);
    if (hasPressure) panelOf(host, 'kPa', (panels.length ? 120 : room) + 66, true, pressures);
    panels.forEach(hands);
    frame.addEventListener('keydown', keys);
    new ResizeObserver(() => {
      for (const panel of panels) {
        if (panel.u.width !== host.clientWidth && host.clientWidth > 0) {
          panel.whole = panel.sharp = undefined;
          panel.u.setSize({ width: host.clientWidth, height: panel.u.height });
        }
      }
      ask();
    }).observe(host);
    matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => {
      inks();
      for (const panel of panels) { panel.whole = panel.sharp = undefined; panel.u.redraw(false, true); }
    });
    document.fonts.ready.then(ask);
    show();
    setMoment(state.plateau ? (state.holding || state.plateau).from : state.first);
  }

  /** The form that states a border: what is chosen there is moved on the curves, and the other way round. */
  const form = document.getElementById('border-form');

  function moved(moment) {
    const at = Math.round(Math.max(state.first, Math.min(state.last, moment)) * 10) / 10;
    state.moving.at = Math.max(state.first, Math.min(state.last, at));
    form.elements.at.value = figure(state.moving.at, 1);
    told();
  }

  function told() {
    const at = state.moving ? state.moving.at : undefined;
    document.getElementById('border-minutes').textContent = at === undefined ? '' : minutes(at);
    for (const { u } of panels) u.redraw(false, false);
  }

  function stating() {
    if (!form) return;
    const details = form.closest('details');
    const number = (text) => (text === '' ? undefined : Number(text));
    // as somebody types it: with a decimal comma or point, and without signs between thousands
    const typed = (text) => {
      const plain = text.trim().replace('−', '-').replace(',', '.');
      return /^[+-]?\d+(\.\d+)?$/.test(plain) ? Number(plain) : undefined;
    };
    const chosen = () => {
      if (!details.open) { state.moving = undefined; for (const { u } of panels) u.redraw(false, false); return; }
      const option = form.elements.border.selectedOptions[0];
      state.moving = { name: option.value, words: option.dataset.words, found: number(option.dataset.found), at: number(option.dataset.at) };
      form.elements.at.value = option.dataset.at.replace('.', words.decimal);
      told();
    };
    details.addEventListener('toggle', chosen);
    form.elements.border.addEventListener('change', chosen);
    form.elements.at.addEventListener('input', () => {
      if (!state.moving) return;
      state.moving.at = typed(form.elements.at.value);
      told();
    });
    form.elements.at.addEventListener('keydown', (event) => {
      const step = { ArrowUp: 1, ArrowDown: -1 }[event.key];
      if (!step || !state.moving || state.moving.at === undefined) return;
      event.preventDefault();
      moved(state.moving.at + step);
    });
  }

  function findings() {
    for (const button of document.querySelectorAll('button.show')) {
      const finding = state.findings[Number(button.dataset.finding)];
      if (!finding) continue;
      button.hidden = false;
      button.addEventListener('click', () => {
        state.shown = finding;
        for (const item of document.querySelectorAll('.finding[aria-current]')) item.removeAttribute('aria-current');
        button.closest('.finding').setAttribute('aria-current', 'true');
        const from = Math.min(finding.from ?? finding.at, finding.at ?? finding.from);
        const to = Math.max(finding.to ?? finding.at, finding.at ?? finding.to);
        const around = Math.max(30, 0.25 * (to - from));
        look(from - around, to + around);
        setMoment(finding.at ?? from);
        if (frame.getBoundingClientRect().top < 0 || frame.getBoundingClientRect().bottom > innerHeight) {
          frame.scrollIntoView({ block: 'nearest' });
        }
      });
    }
  }

  async function one() {
    const data = await fetched(words.traces);
    Object.assign(state, {
      facts: data, first: data.first, last: Math.max(data.last, data.first + 1), from: data.first, to: Math.max(data.last, data.first + 1),
      low: data.low, high: data.high, phases: data.phases, plateau: data.plateau, holding: data.holding, points: data.points || [],
      stated: data.stated || [], findings: data.findings, thinned: data.thinned, isWindowThinned: data.thinned, base: curvesOf(data, 0),
    });
    state.curves = state.base;
    put();
    findings();
    stating();
  }

  async function several() {
    state.isCompare = true;
    const chosen = [...document.querySelectorAll('input[name=run]:checked')].map((box) => box.value);
    const all = [];
    const queue = [...chosen];
    await Promise.all([0, 1, 2, 3].map(async () => {
      while (queue.length) {
        const number = queue.shift();
        all.push([Number(number), await fetched(words.compare + number + '/traces')]);
      }
    }));
    all.sort((a, b) => a[0] - b[0]);
    for (const [number, data] of all) {
      const zero = data.plateau ? data.plateau.from : data.first;
      const curves = curvesOf(data, zero, number).filter((curve) => curve.unit === '°C' && curve.role !== 'ambient');
      state.runs.push({ number, chamber: curves.filter((curve) => curve.role !== 'theoretical') });
      state.base.push(...curves);
      state.low = state.low === undefined || state.low === data.low ? data.low : NaN;
      state.high = state.high === undefined || state.high === data.high ? data.high : NaN;
    }
    if (Number.isNaN(state.low)) { state.low = undefined; state.high = undefined; }
    if (Number.isNaN(state.high)) state.high = undefined;
    const begins = all.map(([, data]) => data.first - (data.plateau ? data.plateau.from : data.first));
    const ends = all.map(([, data]) => data.last - (data.plateau ? data.plateau.from : data.first));
    const lengths = all.map(([, data]) => (data.plateau ? data.plateau.to - data.plateau.from : 0));
    state.first = Math.min(...begins);
    state.last = Math.max(...ends);
    state.from = state.first;
    state.to = state.last;
    state.plateau = state.low === undefined ? undefined : { from: 0, to: Math.max(...lengths) };
    state.curves = state.base;
    put();
  }

  (words.compare ? several() : one()).catch(tell);
})();
