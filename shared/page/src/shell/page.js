"use strict";
// Follows the design: each new state replaces the column, with what is folded and focused kept as it was.
const main = document.getElementById("main");
const state = document.getElementById("state");
const events = new EventSource("events" + location.search);

function say(words) {
  state.textContent = words;
  state.hidden = !words;
}

function keyOf(element) {
  if (!element || !main.contains(element)) return null;
  return element.id || element.getAttribute("href") || element.getAttribute("data-from");
}

events.addEventListener("page", (event) => {
  const { title, html } = JSON.parse(event.data);
  const folded = [...main.querySelectorAll("details")].filter((one) => !one.open).map((one) => one.id);
  const focused = keyOf(document.activeElement);
  main.innerHTML = html;
  document.title = title;
  for (const id of folded) document.getElementById(id)?.removeAttribute("open");
  if (focused) {
    [...main.querySelectorAll("a,button,summary")].find((one) => keyOf(one) === focused)?.focus();
  }
  main.classList.remove("older");
  say("");
});

events.addEventListener("unreadable", (event) => {
  main.classList.add("older");
  say("The pictures show the text before it could no longer be read. " + JSON.parse(event.data));
});

events.addEventListener("mark", (event) => {
  const at = JSON.parse(event.data);
  for (const one of document.querySelectorAll(".marked")) one.classList.remove("marked");
  const on = [...document.querySelectorAll("[data-from]")].filter(
    (one) => Number(one.dataset.from) <= at && at <= Number(one.dataset.to),
  );
  const size = (one) => Number(one.dataset.to) - Number(one.dataset.from);
  const least = Math.min(...on.map(size));
  for (const one of on) if (size(one) === least) one.classList.add("marked");
});

events.addEventListener("over", () => {
  events.close();
  main.classList.add("older");
  say("The design is no longer followed.");
});

events.onerror = () => {
  main.classList.add("older");
  say("The design is no longer followed: finwright has ended, or can't be reached.");
};

document.addEventListener("click", (event) => {
  const from = event.target.closest?.("[data-from]");
  if (!from) return;
  const range = { from: Number(from.dataset.from), to: Number(from.dataset.to) };
  fetch("go", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(range) });
});
