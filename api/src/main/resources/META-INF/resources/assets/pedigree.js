// Brings the lot that the page is about into view in its pedigree, which may be wider than the page.

const region = document.querySelector(".pedigree");
const start = region?.querySelector(".box.start");
if (start) {
  const box = start.getBoundingClientRect();
  const frame = region.getBoundingClientRect();
  region.scrollLeft = box.left - frame.left - (frame.width - box.width) / 2;
  region.scrollTop = box.top - frame.top - (frame.height - box.height) / 2;
}
