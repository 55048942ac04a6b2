// The key / leads to the search, but for who is typing already; a menu closes when it is left; the
// present place is within sight.

const search = document.getElementById("search");

document.addEventListener("keydown", (event) => {
  const typing = event.target.closest?.("input, textarea, select, [contenteditable]");
  if (event.key === "/" && !typing && !event.ctrlKey && !event.metaKey && !event.altKey) {
    event.preventDefault();
    search?.focus();
  }
});

for (const menu of document.querySelectorAll(".menu")) {
  menu.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && menu.open) {
      menu.open = false;
      menu.querySelector("summary").focus();
    }
  });
  for (const left of ["click", "focusin"]) {
    document.addEventListener(left, (event) => {
      menu.open &&= menu.contains(event.target);
    });
  }
}

document.querySelector(".rooms [aria-current]")?.scrollIntoView({ block: "nearest", inline: "center" });
