/**
 * Lets time pass as long as something goes on: the page's clock, but for step mode, and motors that still turn.
 * @param {App} app
 * @param {ReturnType<typeof devicesView>} devices
 */
function wakerOf(app, devices) {
  let asked = false;
  let last = 0;
  /** @param {number} time */
  function frame(time) {
    asked = false;
    const passed = Math.min(0.1, last ? (time - last) / 1000 : 0);
    last = time;
    const goes = passTime(app, passed);
    if (devices.turn(passed) || goes) wake();
    else last = 0;
  }
  function wake() {
    if (asked) return;
    asked = true;
    requestAnimationFrame(frame);
  }
  return wake;
}

/** In slow motion what takes milliseconds takes a hundred times as long; a frame sees at most so many things happen. */
const SLOWNESS = 100;
const MOST_A_FRAME = 4;

/**
 * @param {App} app
 * @param {number} passed
 * @returns {boolean} whether anything goes on by itself
 */
function passTime(app, passed) {
  if (app.mode === "step" || app.run.held) return false;
  let { run } = app;
  let left = passed;
  for (let count = 0; count < MOST_A_FRAME && left > 0 && app.rules.candidates(run).length; count += 1) {
    const pace = app.mode === "slow" && app.rules.isHasty(run) ? 1 / SLOWNESS : 1;
    const later = app.rules.wait(run, left * pace);
    left -= (later.seconds - run.seconds) / pace;
    run = later;
    if (run.held) break;
  }
  app.show(run);
  return app.rules.candidates(run).length > 0 && !run.held;
}
