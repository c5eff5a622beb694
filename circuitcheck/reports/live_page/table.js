/**
 * The truth table; the row that the present state belongs to is marked.
 * @param {App} app
 */
function tableView(app) {
  const { table } = app.data;
  if (!table) return () => {};
  const heads = table.headings.map((heading) => make("th", { scope: "col" }, heading));
  const rows = table.rows.map((row) => {
    const cells = row.cells.map((cell) => make("td", {}, cell));
    return make("tr", {}, make("td", { class: "mark" }), ...cells);
  });
  const marks = make("th", { scope: "col" }, make("span", { class: "unseen" }, "present row"));
  place("table").append(make("thead", {}, make("tr", {}, marks, ...heads)), make("tbody", {}, ...rows));
  let marked = -1;
  return (run) => {
    const present = presentRow(table.rows, run.state);
    const row = table.rows[present];
    const onTheWay = row && !fits(row.relays, run.state) ? "Relays are still on their way to what this row tells." : "";
    say(place("table-note"), row ? onTheWay : "No row is about this state: a switch is between two positions.");
    if (present === marked) return;
    if (rows[marked]) setMark(rows[marked], false);
    if (rows[present]) setMark(rows[present], true);
    marked = present;
  };
}

/**
 * The number of the row; of rows for relays before, the one in which relays end as they stand now goes first.
 * @param {Row[]} rows
 * @param {State} state
 */
function presentRow(rows, state) {
  const here = rows.flatMap((row, number) => (fits(row.given, state) ? [number] : []));
  return here.find((number) => fits(rows[number].relays, state)) ?? here[0] ?? -1;
}

/** Do these digits stand so? A value that is null stands for any. */
const fits = (pairs, state) => pairs.every(([digit, value]) => value === null || state[digit] === value);

/**
 * @param {HTMLElement} row
 * @param {boolean} here
 */
function setMark(row, here) {
  row.classList.toggle("now", here);
  setAttributes(row, { "aria-current": here ? "true" : false });
  say(row.children[0], here ? "▶ now" : "");
  if (!here) return;
  const box = place("table-box");
  const above = row.offsetTop - box.scrollTop;
  if (above < 40 || above > box.clientHeight - 40) box.scrollTop = row.offsetTop - box.clientHeight / 2;
}
