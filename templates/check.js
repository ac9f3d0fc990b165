"use strict";
// Hashes every file of a chosen folder, compares with the manifests of the bag (RFC 8493), and checks the signatures of
// statements (OpenSSH's SSHSIG). Nothing is sent anywhere:
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

  // The parts of an OpenSSH blob: each four bytes of length, then so many bytes.
  function parts(bytes) {
    var out = [], at = 0, view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    while (at + 4 <= bytes.length) {
      var size = view.getUint32(at);
      if (at + 4 + size > bytes.length) { throw new Error("length"); }
      out.push(bytes.slice(at + 4, at + 4 + size));
      at += 4 + size;
    }
    return out;
  }

  function text(bytes) { return new TextDecoder().decode(bytes); }

  function joined(all) {
    var out = new Uint8Array(all.reduce(function (sum, one) { return sum + one.length; }, 0)), at = 0;
    all.forEach(function (one) { out.set(one, at); at += one.length; });
    return out;
  }

  function measured(bytes) {
    var size = new Uint8Array(4);
    new DataView(size.buffer).setUint32(0, bytes.length);
    return joined([size, bytes]);
  }

  function base64(bytes) { return btoa(String.fromCharCode.apply(null, bytes)); }

  function url64(bytes) {
    var from = 0;
    while (from < bytes.length - 1 && bytes[from] === 0) { from++; }
    return base64(bytes.slice(from)).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
  }

  // A number of an ECDSA signature, brought to 32 bytes.
  function fixed(bytes) {
    var out = new Uint8Array(32), own = bytes.slice(-32);
    out.set(own, 32 - own.length);
    return out;
  }

  // Whether an OpenSSH signature (SSHSIG) fits some bytes: true, false, or nothing where the browser cannot say.
  async function fits(armoured, message) {
    var raw = Uint8Array.from(atob(armoured.replace(/-----[^-]+-----/g, "").replace(/\s+/g, "")), function (c) { return c.charCodeAt(0); });
    var head = parts(raw.slice(10)), key = parts(head[0]), signature = parts(head[4]), subtle = crypto.subtle;
    var print = "SHA256:" + base64(new Uint8Array(await subtle.digest("SHA-256", head[0]))).replace(/=+$/, "");
    if (text(raw.slice(0, 6)) !== "SSHSIG" || text(head[1]) !== "dossier-approval") { return [false, print]; }
    var hash = new Uint8Array(await subtle.digest(text(head[3]) === "sha256" ? "SHA-256" : "SHA-512", message));
    var signed = joined([raw.slice(0, 6), measured(head[1]), measured(head[2]), measured(head[3]), measured(hash)]);
    var kind = text(key[0]), scheme = text(signature[0]), how, own, found = signature[1];
    try {
      if (kind === "ssh-ed25519") {
        how = { name: "Ed25519" };
        own = await subtle.importKey("raw", key[1], how, false, ["verify"]);
      } else if (kind === "ecdsa-sha2-nistp256") {
        how = { name: "ECDSA", namedCurve: "P-256", hash: "SHA-256" };
        own = await subtle.importKey("raw", key[2], how, false, ["verify"]);
        found = joined(parts(found).map(fixed));
      } else if (kind === "ssh-rsa") {
        how = { name: "RSASSA-PKCS1-v1_5", hash: scheme === "rsa-sha2-256" ? "SHA-256" : "SHA-512" };
        own = await subtle.importKey("jwk", { kty: "RSA", e: url64(key[1]), n: url64(key[2]) }, how, false, ["verify"]);
      } else { return [undefined, print]; }
    } catch (unable) { return [undefined, print]; }
    return [await subtle.verify(how, own, found, signed), print];
  }

  // Every statement in its order: about this copy, after the one before, signed.
  async function statements(there, own) {
    var names = Array.from(there.keys()).filter(function (name) { return /^signatures\/[^/]+\.json$/.test(name); }).sort();
    var rows = document.getElementById("statements"), before = null;
    rows.replaceChildren();
    var taken = Array.from(there.keys()).some(function (name) { return /^data\/signed-dossier\/signatures\/[^/]+\.json$/.test(name); });
    if (!names.length) { rows.appendChild(document.createElement("li")).textContent = taken ? words.copied : words.unsigned; }
    for (var name of names) {
      var bytes = new Uint8Array(await there.get(name).arrayBuffer()), said = [undefined, ""], told = "", good = false;
      try {
        var statement = JSON.parse(text(bytes));
        told = statement.name + ", " + statement.role + ", " + statement.meaning + ", " + statement.time;
        good = statement.digest === "sha256:" + own && statement.before === before;
        said = await fits(await there.get(name + ".sig").text(), bytes);
      } catch (broken) { good = false; }
      before = "sha256:" + hex(await crypto.subtle.digest("SHA-256", bytes));
      var word = !good || said[0] === false ? words.misfits : said[0] ? words.fits + " " + said[1] : words.unsure + ": " + said[1];
      rows.appendChild(document.createElement("li")).textContent = name + ": " + told + ": " + word;
    }
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
    var own = hex(await crypto.subtle.digest("SHA-256", await there.get(LISTS[1]).arrayBuffer()));
    digest.lastElementChild.textContent = groups(own);
    await statements(there, own);
    digest.hidden = false;
  }

  section.hidden = false;
  if (!window.crypto || !crypto.subtle) { checked.textContent = words.unable; box.disabled = true; return; }
  box.setAttribute("webkitdirectory", "");
  box.addEventListener("change", function () { check(box.files); });
}());
