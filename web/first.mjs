// Which functions of the page's program come in its first part (split.mjs): those named in first.txt, which a first visit calls. tests/browser/first.mjs
// writes that list; it is no more than a choice, so one that has aged, or names that a compiler writes in another way, cost time only.
import { existsSync, readFileSync } from "node:fs";

/** The longest name that the list tells in full. */
const LONGEST = 100;

/** A function's name in short: without the number of its crate's version, and of a path only the last name, of one of ours the last two. */
export const plain = (name) =>
  name
    .replace(/\[[0-9a-f]{10,}\]/g, "")
    .replace(/\b(?:\w+::)*(\w+::)(?=\w)/g, (path, last) => (/^(kernel|web)::/.test(path) ? last : ""))
    .slice(0, LONGEST);

const list = new URL("first.txt", import.meta.url);
const listed = new Set(existsSync(list) ? readFileSync(list, "utf8").split("\n") : []);

/** A function that has lost its name is taken for one that is needed. */
export const comesFirst = (name) => name === "" || listed.has(plain(name));
