/**
 * Methods of newer ECMAScript editions that the bundle calls and an older engine may lack, as script text. A bundler lowers
 * syntax, not methods.
 */
export const STAND_INS = `(function () {
  function add(target, name, method) {
    if (!target[name]) Object.defineProperty(target, name, { value: method, configurable: true, writable: true });
  }
  function at(index) {
    var place = Math.trunc(index) || 0;
    return this[place < 0 ? this.length + place : place];
  }
  function findLastIndex(test, self) {
    for (var place = this.length - 1; place >= 0; place -= 1)
      if (test.call(self, this[place], place, this)) return place;
    return -1;
  }
  add(Array.prototype, "at", at);
  add(String.prototype, "at", at);
  add(Array.prototype, "findLastIndex", findLastIndex);
  add(Array.prototype, "findLast", function (test, self) { return this[findLastIndex.call(this, test, self)]; });
  add(Array.prototype, "toSorted", function (compare) { return Array.from(this).sort(compare); });
  add(Array.prototype, "toReversed", function () { return Array.from(this).reverse(); });
  add(Array.prototype, "with", function (index, value) {
    var copy = Array.from(this);
    copy[index < 0 ? copy.length + index : index] = value;
    return copy;
  });
  add(Array.prototype, "toSpliced", function () {
    var copy = Array.from(this);
    Array.prototype.splice.apply(copy, arguments);
    return copy;
  });
  add(Object, "hasOwn", function (object, name) { return Object.prototype.hasOwnProperty.call(object, name); });
  add(String.prototype, "matchAll", function (pattern) {
    var text = String(this), copy = new RegExp(pattern.source, pattern.flags), found = [], match;
    while ((match = copy.exec(text)) !== null) {
      found.push(match);
      if (match[0] === "") copy.lastIndex += 1;
    }
    return found[Symbol.iterator]();
  });
  add(String.prototype, "replaceAll", function (pattern, by) {
    if (Object.prototype.toString.call(pattern) === "[object RegExp]") return this.replace(pattern, by);
    var parts = String(this).split(pattern);
    if (typeof by !== "function") {
      if (by.indexOf("$") < 0) return parts.join(by);
      var whole = String(pattern).replace(/[.*+?^\${}()|[\\]\\\\]/g, "\\\\$&");
      return this.replace(new RegExp(whole, "g"), by);
    }
    return parts.reduce(function (text, part) { return text + by(pattern) + part; });
  });
})();`;
