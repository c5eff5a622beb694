/**
 * Ladder and wiring drawing: what carries current is lit, what is closed is closed, and controls can be worked there.
 * Whoever drew them has said on each element which conductors, part, load or digit it stands for.
 */
function picturesView(app) {
  const elements = [...document.querySelectorAll(".picture [data-conductors]")].map((element) => ({
    element, conductors: element.getAttribute("data-conductors").split(" ").filter(Boolean).map(Number),
  }));
  const loads = [...document.querySelectorAll(".picture [data-load]")].map((element) => ({
    element, load: Number(element.getAttribute("data-load")),
  }));
  document.querySelectorAll(".picture [data-digit]").forEach((element) => makeWorkable(app, element));
  pictureTabs();
  return (run, now) => {
    for (const { element, conductors } of elements) {
      const flows = conductors.map((number) => now.flows[number]);
      const short = flows.includes("shorting");
      const lit = flows.includes("fed");
      const brake = flows.includes("braking");
      element.classList.toggle("lit", lit || short || brake);
      element.classList.toggle("short", short);
      element.classList.toggle("brake", brake && !lit && !short);
      element.classList.toggle("closed", conductors.some((number) => app.lookups.closed(number, run.state)));
      element.classList.toggle("way", conductors.some((number) => app.shownWay.conductors.includes(number)));
    }
    for (const { element, load } of loads) element.classList.toggle("way", app.shownWay.loads.includes(load));
  };
}

/** A contact of something that a hand works brings it to its next position. */
function makeWorkable(app, element) {
  const number = Number(element.getAttribute("data-digit"));
  const digit = app.data.digits[number];
  if (!digit || !["control", "outside", "supply"].includes(digit.kind)) return;
  setAttributes(element, { tabindex: 0, role: "button", "aria-label": `${digit.name}: to its next position` });
  element.classList.add("workable");
  const next = () => app.work(number, (Math.min(app.run.state[number], digit.positions - 1) + 1) % digit.positions);
  element.addEventListener("click", next);
  element.addEventListener("keydown", (event) => {
    const { key } = /** @type {KeyboardEvent} */ (event);
    if (key !== " " && key !== "Enter") return;
    event.preventDefault();
    next();
  });
}

/** One picture at a time. */
function pictureTabs() {
  const radios = [...document.querySelectorAll("#picture-choice input")].map((one) => /** @type {HTMLInputElement} */ (one));
  const show = () => radios.forEach((radio) => { place(radio.value).hidden = !radio.checked; });
  radios.forEach((radio) => radio.addEventListener("change", show));
  show();
}
