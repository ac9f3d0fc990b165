"use strict";
// Opens the proof of a number that was followed to, or all proofs of a page. Tables of more than a few rows can be sorted by their heads and, when they are long, narrowed down by a word.
// Without this script they stand in their own, useful order.
(function () {
  // Perhaps after a name or a sign of a limit, perhaps with a power of ten.
  var number = /^(?:[^\s=]{1,3} = |[≤≥<>]=? )?([−-]?[0-9]+(?:[.,][0-9]+)?)(?:·10([⁻⁰¹²³⁴-⁹]+))?/;
  var day = /^([0-9]{2})[./]([0-9]{2})[./]([0-9]{4})/;

  function key(row, column) {
    var cell = row.cells[column];
    return cell ? cell.textContent.trim().replace(day, "$3-$2-$1") : "";
  }

  function value(parts) {
    var power = (parts[2] || "⁰").replace(/./g, function (c) { return c === "⁻" ? "-" : "⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(c); });
    return parseFloat(parts[1].replace("−", "-").replace(",", ".")) * Math.pow(10, parseInt(power, 10));
  }

  function compare(a, b) {
    var x = number.exec(a), y = number.exec(b);
    if (x && y) {
      var difference = value(x) - value(y);
      if (difference) { return difference; }
    }
    return a < b ? -1 : a > b ? 1 : 0;
  }

  function sort(table, column, head) {
    var down = head.getAttribute("aria-sort") === "ascending";
    var body = table.tBodies[0];
    var rows = Array.prototype.slice.call(body.rows).map(function (row, i) { return [row, key(row, column), i]; });
    rows.sort(function (a, b) { return (down ? compare(b[1], a[1]) : compare(a[1], b[1])) || a[2] - b[2]; });
    rows.forEach(function (row) { body.appendChild(row[0]); });
    Array.prototype.forEach.call(table.tHead.rows[0].cells, function (other) { other.removeAttribute("aria-sort"); });
    head.setAttribute("aria-sort", down ? "descending" : "ascending");
  }

  function sortable(table) {
    Array.prototype.forEach.call(table.tHead.rows[0].cells, function (head, column) {
      if (!head.textContent.trim()) { return; }
      var button = document.createElement("button");
      button.type = "button";
      button.className = "sort";
      button.textContent = head.textContent;
      head.replaceChildren(button);
      button.addEventListener("click", function () { sort(table, column, head); });
    });
  }

  function narrowed(table, i) {
    var line = document.createElement("p"), label = document.createElement("label"), box = document.createElement("input"), said = document.createElement("span");
    line.className = "narrow";
    box.type = "search";
    box.id = "narrow-" + i;
    label.htmlFor = box.id;
    label.textContent = document.body.dataset.narrow + " ";
    said.setAttribute("role", "status");
    line.appendChild(label);
    line.appendChild(box);
    line.appendChild(said);
    table.parentNode.parentNode.insertBefore(line, table.parentNode);
    box.addEventListener("input", function () {
      var wanted = box.value.toLowerCase(), shown = 0, rows = table.tBodies[0].rows;
      Array.prototype.forEach.call(rows, function (row) {
        row.hidden = row.textContent.toLowerCase().indexOf(wanted) < 0;
        if (!row.hidden) { shown++; }
      });
      said.textContent = wanted ? " " + shown + " / " + rows.length : "";
    });
  }

  // Paper and the browser's own search show only proofs that are open.
  function together(all) {
    var button = document.createElement("button"), line = document.createElement("p"), open = false;
    function name() { button.textContent = open ? document.body.dataset.close : document.body.dataset.open; }
    button.type = "button";
    button.className = "together";
    name();
    button.addEventListener("click", function () {
      open = !open;
      Array.prototype.forEach.call(all, function (details) { details.open = open; });
      name();
    });
    line.className = "narrow";
    line.appendChild(button);
    document.querySelector("main > section").before(line);
  }
  var proofs = document.querySelectorAll(".entry details");
  if (proofs.length > 1) { together(proofs); }

  // Who follows a number to its entry wants to see how it came about.
  function proof() {
    var entry = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    var details = entry && entry.querySelector("details");
    if (details) { details.open = true; }
  }
  window.addEventListener("hashchange", proof);
  proof();

  Array.prototype.forEach.call(document.querySelectorAll("section > .wide > table"), function (table, i) {
    var rows = table.tBodies[0] ? table.tBodies[0].rows.length : 0;
    if (rows > 3 && table.closest("section").id !== "back") { sortable(table); }
    if (rows > 15) { narrowed(table, i); }
  });
}());
