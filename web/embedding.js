// A sample of the message interface, version 1.
// Out of the frame, whenever the drawing comes to rest: { ghostpin: 1, parameters, readings } with the readings' names of the table,
// null for what the axle does not have; in an exercise also result: { task, checked, passed, by, marks }, and the parameters are the hand-in. Into the frame: { ghostpin: 1, open: parameters }.
const frame = document.querySelector("#axle");
let parameters;
addEventListener("message", ({ source, data }) => {
  if (source !== frame.contentWindow || data?.ghostpin !== 1) return;
  parameters = data.parameters;
  document.querySelector("#offset").textContent = data.readings.kingpin_offset_wheel_centre_mm?.toFixed(1) ?? "–";
  const { result } = data;
  document.querySelector("#result").textContent = result?.checked ? `${result.passed ? "passed" : "not yet"}: ${result.marks.join(" ")}` : "–";
});
document.querySelector("#lift").addEventListener("click", () => {
  // A state is a link's parameters: read it, change one, send it back.
  const open = parameters?.replace(/&travel=[^&]*/, "&travel=30");
  frame.contentWindow.postMessage({ ghostpin: 1, open }, location.origin);
});
// An exercise is a lesson's link; this one is written by hand.
const EXERCISE = "v=3&of=double-wishbone.1&task=Bring_the_scrub_radius_to_0_%C2%B1_1_mm.&hint=Move_the_joint_sideways."
  + "&free=lo-y_700_770&aims=scrub_radius~0_1_0_0_0&pins=scrub_radius&end=1";
document.querySelector("#teach").addEventListener("click", () => {
  frame.contentWindow.postMessage({ ghostpin: 1, open: EXERCISE }, location.origin);
});
