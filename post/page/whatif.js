"use strict";
// The sliders: a reduced model evaluated in the page, as post::at() does in the program.
//
// lower = max over c of 2 load.c - c.F.c, upper = min over v of v.G.v with v[0] = 1, where
// F = flux[0] + sum flux[k] / mu[k] and G = field[0] + sum field[k] mu[k]. Evaluated for the c and v
// found, so a rounded solution only widens the bounds.
(function () {
  function solved(matrix, right) { // symmetric and positive definite: Cholesky
    const n = right.length, L = matrix.map((row) => row.slice()), x = right.slice();
    for (let j = 0; j < n; ++j) {
      for (let k = 0; k < j; ++k) L[j][j] -= L[j][k] * L[j][k];
      L[j][j] = Math.sqrt(Math.max(L[j][j], Number.MIN_VALUE));
      for (let i = j + 1; i < n; ++i) {
        for (let k = 0; k < j; ++k) L[i][j] -= L[i][k] * L[j][k];
        L[i][j] /= L[j][j];
      }
    }
    for (let i = 0; i < n; ++i) {
      for (let k = 0; k < i; ++k) x[i] -= L[i][k] * x[k];
      x[i] /= L[i][i];
    }
    for (let i = n - 1; i >= 0; --i) {
      for (let k = i + 1; k < n; ++k) x[i] -= L[k][i] * x[k];
      x[i] /= L[i][i];
    }
    return x;
  }
  function dot(a, b) { return a.reduce((sum, value, i) => sum + value * b[i], 0); }
  function times(matrix, x) { return matrix.map((row) => dot(row, x)); }
  function mixed(parts, factors) {
    return parts[0].map((row, i) => row.map((first, j) =>
      factors.reduce((sum, factor, k) => sum + factor * parts[k + 1][i][j], first)));
  }
  function inductance(winding, mu) {
    const F = mixed(winding.flux_H, mu.map((m) => 1 / m)), G = mixed(winding.field_H, mu);
    const c = solved(F, winding.load_H);
    const rest = G.slice(1).map((row) => row.slice(1));
    const v = [1].concat(solved(rest, G.slice(1).map((row) => -row[0])));
    return { lower: 2 * dot(winding.load_H, c) - dot(c, times(F, c)), upper: dot(v, times(G, v)) };
  }

  // Mixing rules, as solver::effective_permeability() arranges them.
  const rules = {
    "maxwell-garnett": (mu, f) => (2 * (1 - f) + (1 + 2 * f) * mu) / (2 + f + (1 - f) * mu),
    "bruggeman": (mu, f) => {
      const b = (3 * f - 1) * mu + 2 - 3 * f, root = Math.sqrt(b * b + 8 * mu);
      return b >= 0 ? (b + root) / 4 : 2 * mu / (root - b);
    },
    "bruggeman-differential": (mu, f) => {
      const slope = (1 - f) * (mu - 1);
      let x = Math.max(1, Math.cbrt(mu));
      for (let step = 0; step < 100; ++step) {
        const next = x - ((x * x + slope) * x - mu) / (3 * x * x + slope);
        if (!(next < x)) break;
        x = next;
      }
      return x * x * x;
    },
    "lichtenecker": (mu, f) => Math.pow(mu, f),
    "looyenga": (mu, f) => Math.pow(1 - f + f * Math.cbrt(mu), 3)
  };

  function magnitude(value) { return Math.floor(Math.log10(Math.abs(value))); }
  const prefixes = ["f", "p", "n", "µ", "m", "", "k", "M", "G"];
  /** Value and bounds in words; the bounds rounded outwards, so that what is shown still holds. */
  function bracketed(bounds) {
    const width = bounds.upper - bounds.lower, value = 0.5 * (bounds.lower + bounds.upper);
    const telling = width > 0 ? magnitude(bounds.upper) - magnitude(width) + 2 : 4;
    const digits = Math.min(12, Math.max(3, telling));
    const group = Math.floor(magnitude(bounds.upper) / 3);
    const index = Math.min(8, Math.max(0, group + 5));
    const scale = Math.pow(10, 3 * (index - 5));
    const places = Math.max(0, digits - 1 - magnitude(bounds.upper / scale));
    const step = Math.pow(10, places), unit = "\u00a0" + prefixes[index] + "H";
    const show = (number) => number.toFixed(places);
    const fewer = Math.max(0, places - 1);
    return {
      value: (value / scale).toFixed(fewer) + unit,
      bounds: show(Math.floor(bounds.lower / scale * step) / step) + " to " +
              show(Math.ceil(bounds.upper / scale * step) / step) + unit
    };
  }

  function start(box) {
    const question = JSON.parse(box.querySelector(".question-data").textContent);
    const kept = box.querySelector(".model-data");
    const model = kept ? JSON.parse(kept.textContent) : null;
    const state = {};
    const sliders = Array.from(box.querySelectorAll("input[type=range]"));

    function permeabilities() {
      return question.materials.map((material) => material.rule
        ? rules[material.rule](state[material.particle], state[material.packing])
        : state[material.permeability]);
    }
    function evaluate() {
      const mu = permeabilities();
      return question.windings.map((winding, w) => {
        const bounds = model ? inductance(model.windings[w], mu)
                             : { lower: winding.lower_H, upper: winding.upper_H };
        const turns = winding.turns ? Math.pow(state[winding.turns] / winding.own_turns, 2) : 1;
        return { name: winding.name, lower: turns * bounds.lower, upper: turns * bounds.upper,
                 in_air: turns * winding.in_air_H };
      });
    }
    function words(slider, value) {
      const kind = slider.dataset.kind;
      return kind === "packing" ? (100 * value).toFixed(1) + "\u00a0%"
           : kind === "turns" ? String(value)
           : String(Number(value.toPrecision(4)));
    }
    function show() {
      for (const slider of sliders) {
        const said = words(slider, state[slider.id]);
        box.querySelector("output[for=" + slider.id + "]").textContent = said;
        slider.setAttribute("aria-valuetext", said);
      }
      evaluate().forEach((one, w) => {
        const said = bracketed(one), place = box.querySelector("#" + question.windings[w].place);
        place.querySelector("strong").textContent = said.value;
        place.querySelector(".bounds").textContent = said.bounds;
        place.querySelector(".gain").textContent =
          (0.5 * (one.lower + one.upper) / one.in_air).toPrecision(3);
      });
      permeabilities().forEach((mu, k) => {
        const place = question.materials[k].rule && box.querySelector("#" + question.materials[k].place);
        if (place) place.textContent = mu.toPrecision(4);
      });
    }
    function read(slider) {
      const from = Number(slider.dataset.from), to = Number(slider.dataset.to);
      const part = Number(slider.value) / Number(slider.max);
      return slider.dataset.kind === "turns" ? Number(slider.value)
           : slider.dataset.kind === "packing" ? from + part * (to - from)
           : from * Math.pow(to / from, part);
    }
    function reset() {
      for (const slider of sliders) {
        const from = Number(slider.dataset.from), to = Number(slider.dataset.to);
        const own = Number(slider.dataset.own);
        state[slider.id] = own; // to the last digit, not to the slider's step
        slider.value = slider.dataset.kind === "turns" ? own
          : Number(slider.max) * (slider.dataset.kind === "packing"
            ? (own - from) / (to - from) : Math.log(own / from) / Math.log(to / from));
      }
      show();
    }
    for (const slider of sliders)
      slider.addEventListener("input", () => { state[slider.id] = read(slider); show(); });
    box.querySelector("button").addEventListener("click", reset);
    reset();
    box.hidden = false;
    return { state: state, evaluate: evaluate, show: show, permeabilities: permeabilities };
  }

  window.ferrule = { rules: rules, inductance: inductance, bracketed: bracketed,
                     boxes: Array.from(document.querySelectorAll(".whatif")).map(start) };
})();
