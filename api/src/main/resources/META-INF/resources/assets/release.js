// Keeps the box for all in step with the boxes of the lots. Without it the box for all counts by
// itself when the form is sent.

const all = document.getElementById("all");
const boxes = [...document.querySelectorAll('input[name="lot"]')];

all?.addEventListener("change", () => {
  for (const box of boxes) {
    box.checked = all.checked;
  }
});
for (const box of boxes) {
  box.addEventListener("change", () => {
    all.checked = boxes.every((one) => one.checked);
  });
}
