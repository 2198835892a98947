-- What a walker's tool without files and without other worlds cannot use of PROJ's register, which lies whole in the library:
-- a third of its size.

-- The rules that it was filled by.
CREATE TEMP TABLE rule AS SELECT name FROM sqlite_master WHERE type = 'trigger';
.headers off
.mode list
.once register-rules.sql
SELECT 'DROP TRIGGER "' || name || '";' FROM rule;
.read register-rules.sql

-- Shifts by a file of shifts, and chains of shifts with one of them in it: no such file is read.
CREATE TEMP TABLE chain AS SELECT operation_auth_name AS auth_name, operation_code AS code FROM concatenated_operation_step s
  WHERE EXISTS (SELECT 1 FROM grid_transformation g WHERE g.auth_name = s.step_auth_name AND g.code = s.step_code);
DELETE FROM usage WHERE object_table_name = 'concatenated_operation' AND (object_auth_name, object_code) IN (SELECT auth_name, code FROM chain);
DELETE FROM concatenated_operation_step WHERE (operation_auth_name, operation_code) IN (SELECT auth_name, code FROM chain);
DELETE FROM concatenated_operation WHERE (auth_name, code) IN (SELECT auth_name, code FROM chain);
DELETE FROM usage WHERE object_table_name = 'grid_transformation';
DELETE FROM grid_transformation;
DELETE FROM grid_alternatives;
DELETE FROM grid_packages;
DELETE FROM geoid_model;

-- Other worlds.
DELETE FROM usage WHERE object_auth_name = 'IAU_2015';
DELETE FROM projected_crs WHERE auth_name = 'IAU_2015';
DELETE FROM geodetic_crs WHERE auth_name = 'IAU_2015';
DELETE FROM geodetic_datum WHERE auth_name = 'IAU_2015';
DELETE FROM conversion_table WHERE auth_name = 'IAU_2015';
DELETE FROM ellipsoid WHERE auth_name = 'IAU_2015';
DELETE FROM extent WHERE auth_name = 'IAU_2015';

-- Lists of frames whose places come with an epoch. Other names of what is asked for by number; those stay by which definitions written out by
-- other programs are known for what they are, with their datum and their unit.
DELETE FROM coordinate_metadata;
DELETE FROM alias_name WHERE table_name LIKE '%transformation' OR table_name LIKE 'vertical%'
  OR source = 'EPSG' AND table_name NOT IN ('geodetic_crs', 'geodetic_datum', 'ellipsoid', 'prime_meridian', 'unit_of_measure');

-- What is said about an operation beside its name, and the areas and purposes of projections by themselves: nobody asks for them.
UPDATE conversion_table SET description = NULL;
UPDATE helmert_transformation_table SET description = NULL;
UPDATE other_transformation SET description = NULL;
UPDATE concatenated_operation SET description = NULL;
DELETE FROM usage WHERE object_table_name = 'conversion';

VACUUM;
