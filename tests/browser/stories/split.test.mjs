// What the splitting of a program keeps (web/split.mjs): a small one is split in every way there is. No browser is needed.
import assert from "node:assert/strict";
import { test } from "node:test";
import binaryen from "../../../web/node_modules/binaryen/index.js";
import { shortNames, split, watched } from "../../../web/split.mjs";

// Functions call each other directly, through the table, around in a circle and out into JavaScript; they share memory and a variable.
const PROGRAM = `(module
  (import "js" "hear" (func $hear (param f64) (result f64)))
  (memory (export "memory") 1)
  (data (i32.const 8) "\\03\\00\\00\\00")
  (table $t 3 3 funcref)
  (elem (i32.const 1) $twice $even)
  (global $sum (mut i32) (i32.const 100))
  (type $one (func (param i32) (result i32)))
  (func $begin (i32.store (i32.const 12) (call $twice (i32.const 20))))
  (func $twice (param i32) (result i32) (global.set $sum (i32.add (global.get $sum) (i32.const 1))) (i32.mul (local.get 0) (i32.load (i32.const 8))))
  (func $even (param i32) (result i32) (if (result i32) (i32.eqz (local.get 0)) (then (i32.const 1)) (else (call $odd (i32.sub (local.get 0) (i32.const 1))))))
  (func $odd (param i32) (result i32) (if (result i32) (i32.eqz (local.get 0)) (then (i32.const 0)) (else (call $even (i32.sub (local.get 0) (i32.const 1))))))
  (func $chosen (param i32 i32) (result i32) (call_indirect $t (type $one) (local.get 1) (local.get 0)))
  (func $far (param i64 f32 f64) (result f64) (call $hear (f64.add (f64.convert_i64_s (local.get 0)) (f64.mul (f64.promote_f32 (local.get 1)) (local.get 2)))))
  (func $all (export "all") (param i32) (result i32)
    (i32.add (i32.add (call $chosen (i32.const 1) (local.get 0)) (i32.mul (i32.const 1000) (call $chosen (i32.const 2) (local.get 0))))
      (i32.add (global.get $sum) (i32.load (i32.const 12)))))
  (func (export "odd") (param i32) (result i32) (call $odd (local.get 0)))
  (func (export "out") (param i64) (result f64) (call $far (local.get 0) (f32.const 0.5) (f64.const 7)))
  (start $begin))`;
const NAMES = ["begin", "twice", "even", "odd", "chosen", "far", "all"];

const module = binaryen.parseText(PROGRAM);
binaryen.setDebugInfo(true);
const program = module.emitBinary();

const js = { hear: (value) => value + 0.25 };
const told = ({ all, odd, out }) => [all(6), all(-7 >>> 31), odd(5), odd(8), out(12n), out(-1n), all(6)];
const instance = (bytes, imports) => new WebAssembly.Instance(new WebAssembly.Module(bytes), imports).exports;

test("whatever comes later, the program does the same, and the second part is fetched once, where it is needed", () => {
  const whole = told(instance(program, { js }));
  for (let choice = 0; choice < 2 ** NAMES.length; choice++) {
    const later = NAMES.filter((_, at) => choice & (1 << at));
    const [first, second] = split(program, (name) => later.includes(name));
    let [fetched, early] = [0, []];
    const fetch = () => {
      fetched++;
      // A start runs before JavaScript has the first part: `begin` has to be in it, with what it calls.
      if (exports === undefined) throw new Error("too soon");
      instance(second, { js, first: exports });
      exports.come.value = 1;
    };
    let exports;
    try {
      exports = instance(first, { js, second: { fetch } });
    } catch (error) {
      early = [error.message];
    }
    if (later.includes("begin") || later.includes("twice")) {
      assert.deepEqual(early, ["too soon"], `${later}`);
      continue;
    }
    assert.deepEqual(told(exports), whole, `${later}`);
    assert.equal(fetched, later.length > 0 ? 1 : 0, `${later}`);
  }
});

test("what a program takes in may have short names, in both parts", () => {
  const short = shortNames(program);
  assert.deepEqual([...short], [["hear", "_0"]]);
  const [first, second] = split(program, (name) => name === "far", (name) => short.get(name));
  const given = { js: { _0: js.hear } };
  const exports = instance(first, { ...given, second: { fetch: () => {
    instance(second, { ...given, first: exports });
    exports.come.value = 1;
  } } });
  assert.deepEqual(told(exports), told(instance(program, { js })));
});

test("a watched program does the same and tells which functions are called", () => {
  const { bytes, names } = watched(program);
  const hits = new Set();
  const exports = instance(bytes, { js, first: { hit: (k) => hits.add(names[k]) } });
  assert.deepEqual([...hits], ["begin", "twice"]);
  exports.out(3n);
  assert.ok(hits.has("far") && !hits.has("even"));
  assert.deepEqual(told(exports).slice(0, 1), [told(instance(program, { js }))[0]]);
});

test("a program that is made in a way that nobody has thought of is refused", () => {
  const shared = binaryen.parseText(`(module (memory 1) (func (export "f") (result i32) (i32.atomic.load (i32.const 0))))`);
  shared.setFeatures(binaryen.Features.All);
  assert.throws(() => split(shared.emitBinary(), () => false), /split\.mjs does not know the instruction 0xfe/);
});
