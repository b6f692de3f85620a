// Splits the finished program into two, so that the page stands before all of it has come: split(program, later) gives [first, second].
//
// Both are made of the program's own functions, byte for byte but for the numbers of the functions they call, and work in one memory: the first has it,
// the tables, the global variables and all data, and hands them out; the second takes them in.
//   In the second: what `later` says of its name, and what then nobody in the first calls any more.
//   In its place in the first, where somebody there calls it: a door, which calls what stands in its slot of a table that the second fills:
//     door(given…) = slots[at(n)](given…)      at(n) = { if (!come) fetch(); n }      fetch: from JavaScript, see second.js
// Which functions come later decides how soon and how fast, never what is computed. So a choice that has aged costs only time.
// The format is that of the WebAssembly core specification, release 2, chapter 5 (binary format): what compilers make of Rust today; anything else stops here.
const utf8 = { read: new TextDecoder(), write: new TextEncoder() };
const SECTION = { custom: 0, type: 1, import: 2, function: 3, table: 4, memory: 5, global: 6, export: 7, start: 8, element: 9, code: 10, data: 11, datacount: 12 };
const [FUNCTION, TABLE, MEMORY, GLOBAL] = [0, 1, 2, 3];
const [I32, FUNCREF, FUNC] = [0x7f, 0x70, 0x60];

/** Reads a program's bytes from front to back. */
class Reader {
  constructor(bytes, at = 0, end = bytes.length) {
    Object.assign(this, { bytes, at, end });
  }
  byte() {
    return this.bytes[this.at++];
  }
  number() {
    let sum = 0;
    for (let weight = 1; ; weight *= 128) {
      const byte = this.byte();
      sum += (byte & 127) * weight;
      if (byte < 128) return sum;
    }
  }
  /** A signed number's bytes end where an unsigned one's do. */
  skip(numbers) {
    for (; numbers > 0; numbers--) while (this.byte() >= 128);
  }
  text() {
    const size = this.number();
    this.at += size;
    return utf8.read.decode(this.bytes.subarray(this.at - size, this.at));
  }
  list(read) {
    return Array.from({ length: this.number() }, (_, k) => read(k));
  }
  /** The bytes that `read` goes over. */
  taken(read) {
    const from = this.at;
    read();
    return this.bytes.subarray(from, this.at);
  }
}

/** The bytes of what is nested lists of bytes. */
function flat(parts) {
  const bytes = [];
  const put = (part) => (typeof part === "number" ? bytes.push(part) : part.forEach(put));
  put(parts);
  return Uint8Array.from(bytes);
}
const number = (value) => (value < 128 ? [value] : [(value % 128) + 128, ...number(Math.floor(value / 128))]);
const signed = (value) => (value < 64 ? [value] : [(value % 128) + 128, ...signed(Math.floor(value / 128))]);
const text = (value) => [number(utf8.write.encode(value).length), utf8.write.encode(value)];
const list = (items, write = (item) => item) => [number(items.length), items.map(write)];

const [IF, NOTHING, END, BR_TABLE, CALL, CALL_INDIRECT, SELECT, LOCAL_GET, GLOBAL_GET] = [0x04, 0x40, 0x0b, 0x0e, 0x10, 0x11, 0x1c, 0x20, 0x23];
const [I32_CONST, F32_CONST, F64_CONST, I32_EQZ, REF_FUNC, MORE, VECTOR] = [0x41, 0x43, 0x44, 0x45, 0xd2, 0xfc, 0xfd];
// Of vectors: sixteen bytes follow, a constant or the places to take from.
const SIXTEEN = [0xfd0c, 0xfd0d];

/** How many numbers follow an instruction's code; what is missing here no Rust compiler makes. */
const OPERANDS = new Map();
const operands = (count, ...ranges) => ranges.forEach(([from, to = from]) => { for (let code = from; code <= to; code++) OPERANDS.set(code, count); });
operands(0, [0x00, 0x01], [0x05], [END], [0x0f], [0x1a, 0x1b], [0x45, 0xc4], [0xd1]); // unreachable, nop, else, end, return, drop, select, arithmetic, ref.is_null
operands(1, [0x02, 0x04], [0x0c, 0x0d], [0x20, 0x26], [0x3f, 0x42], [0xd0]); // block, loop, if, br, br_if, variables, tables, memory's size, constants, ref.null
operands(2, [0x11], [0x28, 0x3e]); // call_indirect, memory
operands(0, [0xfc00, 0xfc07]); // conversions
operands(1, [0xfc0b], [0xfc0f, 0xfc11]); // memory.fill, tables
operands(2, [0xfc0a], [0xfc0e]); // memory.copy, table.copy
operands(0, [0xfd0e, 0xfd14], [0xfd23, 0xfd53], [0xfd5e, 0xfdff]); // vectors: arithmetic
operands(1, [0xfd15, 0xfd22]); // one of a vector's numbers
operands(2, [0xfd00, 0xfd0b], [0xfd5c, 0xfd5d]); // memory
operands(3, [0xfd54, 0xfd5b]); // memory, one of a vector's numbers

/** Goes over what follows an instruction's code; gives the function it names, if it names one. */
function instruction(code, reader) {
  if (code === CALL || code === REF_FUNC) return reader.number();
  if (code === F32_CONST) reader.at += 4;
  else if (code === F64_CONST) reader.at += 8;
  else if (code === BR_TABLE) reader.skip(reader.number() + 1);
  else if (code === SELECT) reader.skip(reader.number());
  else {
    const whole = code === MORE || code === VECTOR ? code * 256 + reader.number() : code;
    if (SIXTEEN.includes(whole)) reader.at += 16;
    else if (!OPERANDS.has(whole)) throw new Error(`split.mjs does not know the instruction 0x${whole.toString(16)}`);
    else reader.skip(OPERANDS.get(whole));
  }
}

/** A function's body: its locals and instructions as they are, and between them the functions it calls. */
function body(reader) {
  const end = reader.number() + reader.at;
  const [bytes, calls] = [[], []];
  let from = reader.at;
  for (let groups = reader.number(); groups > 0; groups--) reader.skip(2);
  while (reader.at < end) {
    const code = reader.byte();
    const operand = reader.at;
    const called = instruction(code, reader);
    if (called === undefined) continue;
    bytes.push(reader.bytes.subarray(from, operand));
    calls.push(called);
    from = reader.at;
  }
  bytes.push(reader.bytes.subarray(from, end));
  return { bytes, calls };
}

/** What a variable or a place begins with: instructions up to an end. */
const constant = (reader) => reader.taken(() => {
  for (let code = reader.byte(); code !== END; code = reader.byte()) {
    if (instruction(code, reader) !== undefined) throw new Error("split.mjs does not know constants that are functions");
  }
});
/** Smallest and largest size. */
const limits = (reader) => reader.taken(() => { reader.skip(reader.byte() === 1 ? 2 : 1); });

/** What a program consists of: its functions, those it takes in first, with names and bodies; the rest as it is needed here. */
function parse(program) {
  const found = new Map();
  const names = new Map();
  for (const all = new Reader(program, 8); all.at < all.end; ) {
    const kind = all.byte();
    const size = all.number();
    all.at += size;
    const section = new Reader(program.subarray(all.at - size, all.at));
    if (kind !== SECTION.custom) found.set(kind, section);
    else if (section.text() === "name") while (section.at < section.end) {
      const part = section.byte();
      const next = section.number() + section.at;
      if (part === 1) section.list(() => names.set(section.number(), section.text()));
      section.at = next;
    }
  }
  const each = (kind, read) => (found.has(kind) ? found.get(kind).list(() => read(found.get(kind))) : []);
  const raw = (kind) => found.get(kind)?.bytes;
  const imports = each(SECTION.import, (r) => {
    const [module, name, kind] = [r.text(), r.text(), r.byte()];
    if (kind !== FUNCTION) throw new Error(`split.mjs does not know how to take in ${name}, which is no function`);
    return { module, name, type: r.number() };
  });
  const types = each(SECTION.type, (r) => r.taken(() => { r.at++; r.skip(r.number()); r.skip(r.number()); }));
  const functions = each(SECTION.function, (r) => ({ type: r.number() }));
  const tables = each(SECTION.table, (r) => ({ type: r.byte(), limits: limits(r) }));
  const globals = each(SECTION.global, (r) => ({ type: [r.byte(), r.byte()], value: constant(r) }));
  const exports = each(SECTION.export, (r) => ({ name: r.text(), kind: r.byte(), index: r.number() }));
  const elements = each(SECTION.element, (r) => {
    const flags = r.number();
    if (flags !== 0 && flags !== 2) throw new Error("split.mjs does not know this way to put functions into a table");
    return { head: [number(flags), flags === 2 ? number(r.number()) : [], constant(r), flags === 2 ? r.byte() : []], functions: r.list(() => r.number()) };
  });
  const start = found.get(SECTION.start)?.number();
  each(SECTION.code, body).forEach((body, k) => Object.assign(functions[k], body));
  if (each(SECTION.memory, limits).length !== 1) throw new Error("split.mjs knows programs with one memory");
  const all = [...imports, ...functions].map((given, index) => ({ ...given, index, called: names.get(index) ?? "" }));
  return { types, all, tables, globals, exports, elements, start, memory: raw(SECTION.memory), data: raw(SECTION.data), datacount: raw(SECTION.datacount) };
}

/** All functions that can be reached from these, where what is `shut` leads nowhere. */
function reached(all, from, shut) {
  const seen = new Set(from);
  for (const index of seen) if (!shut(all[index])) for (const called of all[index].calls ?? []) seen.add(called);
  return seen;
}

const code = ({ bytes, calls }, places) => {
  const whole = flat(bytes.map((part, k) => (k ? [number(places.get(calls[k - 1])), part] : part)));
  return [number(whole.length), whole];
};

/**
 * A program's bytes. Functions have numbers of their own in what is given, and in the program by their order: imports first, then the shortest, since what is
 * of one length side by side makes a hundredth less, compressed.
 */
function assembled({ types, imports, functions: unordered, tables = [], memory, globals = [], exports = [], start, elements, datacount, data }) {
  const length = ({ bytes }) => bytes.reduce((sum, part) => sum + part.length, 0);
  const functions = [...unordered].sort((a, b) => length(a) - length(b));
  const places = new Map([...imports.filter(({ kind }) => kind === FUNCTION), ...functions].map(({ index }, place) => [index, place]));
  const section = (kind, content) => {
    const bytes = flat(content);
    return [kind, number(bytes.length), bytes];
  };
  const some = (kind, items, write) => (items.length ? section(kind, list(items, write)) : []);
  const whole = (kind, bytes) => (bytes ? section(kind, bytes) : []);
  return flat([
    utf8.write.encode("\0asm"), [1, 0, 0, 0],
    some(SECTION.type, types),
    some(SECTION.import, imports, ({ module, name, kind, is }) => [text(module), text(name), kind, is]),
    some(SECTION.function, functions, ({ type }) => number(type)),
    some(SECTION.table, tables, ({ type, limits }) => [type, limits]),
    whole(SECTION.memory, memory),
    some(SECTION.global, globals, ({ type, value }) => [type, value]),
    some(SECTION.export, exports, ({ name, kind, index }) => [text(name), kind, number(kind === FUNCTION ? places.get(index) : index)]),
    start === undefined ? [] : section(SECTION.start, number(places.get(start))),
    some(SECTION.element, elements, ({ head, functions }) => [head, list(functions, (index) => number(places.get(index)))]),
    whole(SECTION.datacount, datacount),
    some(SECTION.code, functions, (f) => code(f, places)),
    whole(SECTION.data, data),
  ]);
}

const get = (variable) => [LOCAL_GET, number(variable)];
const constantly = (value) => [I32_CONST, signed(value)];
/** What a function hands on: all that it was given. */
const given = (types, { type }) => Array.from({ length: types[type][1] }, (_, k) => get(k));
const taken = (f) => ({ ...f, kind: FUNCTION, is: number(f.type) });
/** A function of the program's own, not one that it takes in. */
const made = (f) => f.bytes !== undefined;

/** What a program takes in from JavaScript, and a short name for each: `_0`, `_1`, … The compiler's end in 16 digits that no server can pack. */
export const shortNames = (program) => new Map(parse(program).all.filter((f) => !made(f)).map(({ name }, k) => [name, `_${k}`]));
const same = (name) => name;

/** The two parts of a program; of which functions' names `later` holds, these come with the second. What they take in is `named` so. */
export function split(program, later, named = same) {
  const { types, all, tables, globals, exports, elements, start, memory, data, datacount } = parse(program);
  const takenIn = (f) => taken({ ...f, name: named(f.name) });
  const handed = exports.filter(({ kind }) => kind === FUNCTION).map(({ index }) => index);
  const moves = (f) => made(f) && later(f.called);
  const inFirst = reached(all, [...handed, ...elements.flatMap(({ functions }) => functions), ...(start === undefined ? [] : [start])], moves);
  const goes = (f) => made(f) && (moves(f) || !inFirst.has(f.index));
  // The functions behind doors, which are in the first part by their doors alone.
  const doors = all.filter((f) => inFirst.has(f.index) && moves(f)).map(({ index }) => index);
  const inSecond = reached(all, doors, (f) => !goes(f));
  const [ofFirst, ofSecond] = [inFirst, inSecond].map((has) => all.filter(({ index }) => has.has(index)));

  // What the first has more: types, the variable `come`, the table of slots, `fetch` and `at`.
  const [nothing, same] = [types.length, types.length + 1];
  const come = globals.length;
  const slots = tables.length;
  const fetch = { index: "fetch", module: "second", name: "fetch", type: nothing };
  const at = { index: "at", type: same, bytes: [[0, GLOBAL_GET, number(come), I32_EQZ, IF, NOTHING, CALL], [END, get(0), END]], calls: ["fetch"] };
  const door = (f) => ({
    ...f,
    bytes: [[0, given(types, f), constantly(doors.indexOf(f.index)), CALL], [CALL_INDIRECT, number(f.type), number(slots), END]],
    calls: ["at"],
  });
  const shared = [
    { kind: MEMORY, index: 0, is: [0, 0] },
    ...[...tables, { type: FUNCREF }].map(({ type }, index) => ({ kind: TABLE, index, is: [type, 0, 0] })),
    ...globals.map(({ type }, index) => ({ kind: GLOBAL, index, is: type })),
    ...ofSecond.filter((f) => made(f) && !goes(f)).map(taken),
  ].map((thing, name) => ({ ...thing, module: "first", name: `${name}` }));

  const first = assembled({
    types: [...types, [FUNC, 0, 0], [FUNC, 1, I32, 1, I32]],
    imports: [...ofFirst.filter((f) => !made(f)).map(takenIn), taken(fetch)],
    functions: [...ofFirst.filter(made).map((f) => (moves(f) ? door(f) : f)), at],
    tables: [...tables, { type: FUNCREF, limits: [0, number(doors.length)] }],
    globals: [...globals, { type: [I32, 1], value: [constantly(0), END] }],
    exports: [...exports, ...shared, { name: "come", kind: GLOBAL, index: come }],
    memory, start, elements, datacount, data,
  });
  const second = assembled({
    types,
    imports: [...ofSecond.filter((f) => !made(f)).map(takenIn), ...shared],
    functions: ofSecond.filter(goes),
    elements: [{ head: [2, number(slots), constantly(0), END, 0], functions: doors }],
  });
  const parts = [first, second];
  if (!parts.every((part) => WebAssembly.validate(part))) throw new Error("split.mjs has made a program of this one that no browser takes");
  return parts;
}

/**
 * A program that does the same and tells JavaScript, `first.hit(k)`, each time its k-th function is called; and the names of these. What it takes in is
 * `named` so.
 */
export function watched(program, named = same) {
  const { all, ...rest } = parse(program);
  const functions = all.filter(made);
  const inner = functions.map((f) => ({ ...f, index: `inner ${f.index}` }));
  const outer = functions.map((f, k) => ({
    ...f,
    bytes: [[0, given(rest.types, f), constantly(k), CALL], [CALL], [END]],
    calls: ["hit", `inner ${f.index}`],
  }));
  const hit = { index: "hit", module: "first", name: "hit", type: rest.types.length };
  const types = [...rest.types, [FUNC, 1, I32, 0]];
  const bytes = assembled({ ...rest, types, imports: [...all.filter((f) => !made(f)).map((f) => ({ ...f, name: named(f.name) })), hit].map(taken), functions: [...outer, ...inner] });
  return { bytes, names: functions.map(({ called }) => called) };
}
