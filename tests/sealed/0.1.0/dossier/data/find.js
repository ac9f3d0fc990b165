"use strict";
// Finds things by words: every word must stand in a thing's id, kind or words. Ids that begin with the first
// word come first. The index is data in a script of its own, because a page opened from a folder may not read files.
(function () {
  var SHOWN = 60;  // the page says the same number in words
  var words = document.getElementById("finder").dataset;
  var box = document.getElementById("query");
  var list = document.getElementById("found");
  var said = document.getElementById("said");
  var texts = things.map(function (thing) {
    return (thing[0] + " " + thing[1] + " " + thing[3]).toLowerCase();
  });

  function find(query) {
    var words = query.toLowerCase().split(/\s+/).filter(Boolean);
    var first = [], rest = [];
    if (!words.length) { return first; }
    for (var i = 0; i < texts.length; i++) {
      var every = true;
      for (var j = 0; j < words.length && every; j++) { every = texts[i].indexOf(words[j]) >= 0; }
      if (every) { (texts[i].indexOf(words[0]) === 0 ? first : rest).push(i); }
    }
    return first.concat(rest);
  }

  function show() {
    var found = find(box.value);
    var rows = document.createDocumentFragment();
    found.slice(0, SHOWN).forEach(function (i) {
      var row = document.createElement("li"), link = document.createElement("a"), more = document.createElement("span");
      link.href = things[i][2];
      link.textContent = things[i][0];
      more.textContent = " " + things[i][1] + (things[i][3] ? ", " + things[i][3] : "");
      more.className = "of";
      row.appendChild(link);
      row.appendChild(more);
      rows.appendChild(row);
    });
    list.replaceChildren(rows);
    said.textContent = !box.value.trim() ? things.length + " " + words.things :
      found.length + " " + words.found + (found.length > SHOWN ? ", " + words.first : "") + ".";
  }

  document.getElementById("finder").hidden = false;
  box.addEventListener("input", show);
  if (location.hash.indexOf("#q=") === 0) { box.value = decodeURIComponent(location.hash.slice(3)); }
  show();
  box.focus();
}());
