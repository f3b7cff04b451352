/** ui: the page. In: an element of the document; out: nothing. The only room with React and the DOM. */
export { mount } from './mount'
