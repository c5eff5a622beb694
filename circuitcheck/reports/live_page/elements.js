/**
 * Makes an element. Texts become text nodes, so that a name from a plan can never be taken for markup.
 * @param {string} tag
 * @param {Object<string, string|number|boolean>} [attributes] true stands for an attribute without a value
 * @param {...(Node|string)} children
 * @returns {HTMLElement}
 */
function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  setAttributes(element, attributes);
  element.append(...children);
  return element;
}

/**
 * The same in a drawing.
 * @param {string} tag
 * @param {Object<string, string|number|boolean>} [attributes]
 * @param {...(Node|string)} children
 * @returns {SVGElement}
 */
function draw(tag, attributes = {}, ...children) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  setAttributes(element, attributes);
  element.append(...children);
  return element;
}

/**
 * @param {Element} element
 * @param {Object<string, string|number|boolean>} attributes false takes an attribute away
 */
function setAttributes(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false) element.removeAttribute(name);
    else element.setAttribute(name, value === true ? "" : String(value));
  }
}

/**
 * Says a text in an element, and touches nothing where it says so already.
 * @param {Element} element
 */
function say(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/**
 * The element of the page's frame with this id.
 */
function place(id) {
  return /** @type {HTMLElement} */ (document.getElementById(id));
}
