// A sample of the message interface, version 1.
// Out of the frame, whenever nothing moves any more: { ghostpin: 1, parameters, readings } with the readings' names of the table,
// null for what the axle does not have. Into the frame: { ghostpin: 1, open: parameters }.
const frame = document.querySelector("#axle");
let parameters;
addEventListener("message", ({ source, data }) => {
  if (source !== frame.contentWindow || data?.ghostpin !== 1) return;
  parameters = data.parameters;
  document.querySelector("#offset").textContent = data.readings.kingpin_offset_wheel_centre_mm?.toFixed(1) ?? "–";
});
document.querySelector("#lift").addEventListener("click", () => {
  // A state is a link's parameters: read it, change one, send it back.
  const open = parameters?.replace(/&travel=[^&]*/, "&travel=30");
  frame.contentWindow.postMessage({ ghostpin: 1, open }, location.origin);
});
