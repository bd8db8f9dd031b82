// Every example against the schema of its kind, and every brief.json against its own (JSON Schema
// 2020-12, by ajv). Run by tests/browser/run.
import assert from "node:assert/strict";
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import Ajv2020 from "ajv/dist/2020.js";
import addFormats from "ajv-formats";

const project = process.env.PROJECT;
const pages = process.env.PAGES;
const read = (file) => JSON.parse(readFileSync(file, "utf8"));

function schemaFiles(folder) {
  return readdirSync(folder, { recursive: true })
    .filter((file) => file.endsWith(".schema.json"))
    .map((file) => join(folder, file));
}

const checks = new Map();
for (const file of schemaFiles(join(project, "service"))) {
  const ajv = addFormats(new Ajv2020({ allErrors: true, allowUnionTypes: true, strict: false }));
  checks.set(read(file).title, ajv.compile(read(file)));
}

function kindOf(value) {
  return value.kind ?? (value.type === "Feature" ? "route" : undefined);
}

function problems(value) {
  const check = checks.get(kindOf(value));
  assert.ok(check, `no schema for the kind ${kindOf(value)}`);
  return check(value) ? [] : check.errors.map((e) => `${e.instancePath} ${e.message}`);
}

test("every kind of file has a schema", () => {
  for (const kind of ["vessel", "route", "waterway", "tide station", "current station",
    "wind forecast", "rules", "brief"]) assert.ok(checks.has(kind), kind);
});

for (const folder of ["examples", "rules", "tests/given/files"]) {
  for (const file of readdirSync(join(project, folder)).filter((f) => /json$/.test(f))) {
    test(`${folder}/${file} is as its schema says`, () =>
      assert.deepEqual(problems(read(join(project, folder, file))), []));
  }
}

const briefs = readdirSync(pages).map((name) => join(pages, name, "brief.json")).filter(existsSync);

test("there are briefs", () => assert.ok(briefs.length >= 6));

/// Every object below a value, with its place.
function* objectsIn(value, place = "") {
  if (value === null || typeof value !== "object") return;
  if (!Array.isArray(value)) yield [value, place];
  for (const [key, inside] of Object.entries(value)) yield* objectsIn(inside, `${place}/${key}`);
}

for (const file of briefs) {
  const brief = read(file);
  test(`${file} is as its schema says`, () => assert.deepEqual(problems(brief), []));

  test(`${file}: what is not known is null, with its reason`, () => {
    for (const [object, place] of objectsIn(brief)) {
      for (const [key, reason] of Object.entries(object.not_known ?? {})) {
        assert.equal(object[key], null, `${place}/${key}`);
        assert.ok(reason.length > 5, `${place}/not_known/${key}`);
      }
    }
  });
}

test("the schema of a brief refuses a key more and a key less, at every place", () => {
  const brief = read(briefs[0]);
  assert.deepEqual(problems(brief), []);
  let changed = 0;
  for (const [object, place] of objectsIn(brief)) {
    if (place.endsWith("/not_known")) continue;
    object.made_up = 1;
    assert.notDeepEqual(problems(brief), [], `${place} with a key more`);
    delete object.made_up;
    const [key, value] = Object.entries(object).at(place === "" ? 1 : 0); // not its kind
    delete object[key];
    assert.notDeepEqual(problems(brief), [], `${place} without ${key}`);
    object[key] = value;
    if (++changed > 400) break;
  }
  assert.ok(changed > 50);
});
