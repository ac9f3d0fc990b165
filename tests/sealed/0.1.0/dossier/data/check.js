"use strict";
// Hashes every file of a chosen folder and compares with the manifests of the bag (RFC 8493). Nothing is sent anywhere:
// the page's policy forbids every request.
(function () {
  var section = document.getElementById("checker"), words = section.dataset;
  var box = document.getElementById("folder"), checked = document.getElementById("checked");
  var list = document.getElementById("differences"), digest = document.getElementById("digest");
  var LISTS = ["manifest-sha256.txt", "tagmanifest-sha256.txt"];
  var LEFT = /(^|\/)(System Volume Information|\.DS_Store|Thumbs\.db|desktop\.ini|\.Trashes|\.Spotlight-V100|\.fseventsd|\._[^/]*)(\/|$)/;

  function hex(buffer) {
    return Array.prototype.map.call(new Uint8Array(buffer), function (byte) { return (byte + 256).toString(16).slice(1); }).join("");
  }

  function groups(text) {
    return text.replace(/(.{8})(?=.)/g, "$1 ");
  }

  function say(kind, path) {
    var row = document.createElement("li"), name = document.createElement("code");
    row.textContent = kind + ": ";
    name.textContent = path;
    row.appendChild(name);
    list.appendChild(row);
  }

  async function check(files) {
    var there = new Map(), listed = new Map(), good = 0, bad = 0, done = 0;
    Array.prototype.forEach.call(files, function (file) {
      there.set(file.webkitRelativePath.split("/").slice(1).join("/"), file);
    });
    list.replaceChildren();
    digest.hidden = true;
    for (var name of LISTS) {
      if (!there.has(name)) { checked.textContent = words.unlisted; return; }
      (await there.get(name).text()).split("\n").forEach(function (line) {
        var parts = /^([0-9a-f]{64})\s+\*?(.+)$/.exec(line);
        if (parts) { listed.set(parts[2], parts[1]); }
      });
    }
    function differs(kind, path) { bad++; say(kind, path); }
    for (var [path, wanted] of listed) {
      if (!there.has(path)) { differs(words.missing, path); continue; }
      var found = hex(await crypto.subtle.digest("SHA-256", await there.get(path).arrayBuffer()));
      if (found === wanted) { good++; } else { differs(words.changed, path); }
      done++;
      if (done % 50 === 0) { checked.textContent = words.running + " " + done + " / " + listed.size; }
    }
    for (var own of there.keys()) {
      if (listed.has(own) || own === LISTS[1] || own.indexOf("signatures/") === 0) { continue; }
      if (LEFT.test(own)) { say(words.left, own); } else { differs(words.extra, own); }
    }
    checked.textContent = bad ? bad + " " + words.bad + " " + good : good + " " + words.good;
    digest.lastElementChild.textContent = groups(hex(await crypto.subtle.digest("SHA-256", await there.get(LISTS[1]).arrayBuffer())));
    digest.hidden = false;
  }

  section.hidden = false;
  if (!window.crypto || !crypto.subtle) { checked.textContent = words.unable; box.disabled = true; return; }
  box.setAttribute("webkitdirectory", "");
  box.addEventListener("change", function () { check(box.files); });
}());
