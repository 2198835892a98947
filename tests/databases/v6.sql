-- A logbook of schema 6 with what schema 5 held; one of its two grids of heights is counted from the ellipsoid.
PRAGMA application_id = 1196444738;
PRAGMA user_version = 6;
PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
CREATE TABLE compass (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  instrument TEXT NOT NULL,
  error_deg REAL NOT NULL,
  error_spread_deg REAL NOT NULL CHECK (error_spread_deg > 0),
  reading_spread_deg REAL CHECK (reading_spread_deg > 0),
  observed TEXT NOT NULL CHECK (json_valid(observed))
) STRICT;
INSERT INTO "compass" VALUES(10,'sighting',6.87101853814881091686e-01,4.40958551844102597527e-01,7.63762615825980484274e-01,'{"at":"2026-09-12T11:00:00Z","place":null,"instrument":"sighting","readings":[{"station":null,"read":"214 mag","known":"217 grid","from":null,"to":null,"sun_at":null,"spread_deg":null},{"station":null,"read":"100 mag","known":"104.5 grid","from":null,"to":null,"sun_at":null,"spread_deg":null},{"station":null,"read":"310 mag","known":"314 grid","from":null,"to":null,"sun_at":null,"spread_deg":null}],"pairs":[],"keep":true}');
CREATE TABLE draft (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  text TEXT NOT NULL
) STRICT;
CREATE TABLE "entry" (
  id INTEGER PRIMARY KEY,
  trip_id INTEGER NOT NULL REFERENCES trip (id),
  at_unix_ms INTEGER NOT NULL,
  kind TEXT NOT NULL
) STRICT;
INSERT INTO "entry" VALUES(1,1,1789200060000,'pace');
INSERT INTO "entry" VALUES(2,1,1789200600000,'fix');
INSERT INTO "entry" VALUES(3,1,1789200840000,'fix');
INSERT INTO "entry" VALUES(4,1,1789200900000,'keep');
INSERT INTO "entry" VALUES(5,1,1789201440000,'leg');
INSERT INTO "entry" VALUES(6,1,1789202460000,'leg');
INSERT INTO "entry" VALUES(7,1,1789203120000,'leg');
INSERT INTO "entry" VALUES(8,1,1789203660000,'leg');
INSERT INTO "entry" VALUES(9,1,1789204320000,'leg');
INSERT INTO "entry" VALUES(10,1,1789210800000,'compass');
INSERT INTO "entry" VALUES(11,1,1789211400000,'fix');
INSERT INTO "entry" VALUES(12,1,1789212000000,'fix');
INSERT INTO "entry" VALUES(13,1,1789212600000,'fix');
INSERT INTO "entry" VALUES(14,1,1789212660000,'check');
INSERT INTO "entry" VALUES(15,1,1789213200000,'fix');
CREATE TABLE fix (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  line TEXT NOT NULL,
  instrument TEXT NOT NULL,
  lat_deg REAL NOT NULL,
  lon_deg REAL NOT NULL,
  along_m REAL NOT NULL,
  spread_along_m REAL NOT NULL
, lines TEXT NOT NULL DEFAULT '[]' CHECK (json_valid(lines))) STRICT;
INSERT INTO "fix" VALUES(2,'Velm Road','sighting',4.1992072892977432728e+01,7.56846357465864798524e+01,1.11647303805552701309e+03,7.12051807062603643334e+01,'[["Velm Road",null]]');
INSERT INTO "fix" VALUES(3,'Velm Road','sighting',4.19967218148829175578e+01,7.56870922564200583355e+01,1.8024564720959135684e+03,3.48225914068170538939e+01,'[["Velm Road",null]]');
INSERT INTO "fix" VALUES(11,'Velm Road','quick',42.0011224760128,7.56825400394786385049e+01,2.44244101697324185809e+03,1.92321000082054851532e+01,'[["Velm Road",null]]');
INSERT INTO "fix" VALUES(12,'Velm Road','baseplate',4.19957551505856727666e+01,7.5688018894144434511e+01,1.67045965971496457314e+03,1.16732512875835148236e+01,'[["Velm Road",4.0],["Issa Creek",1.0]]');
INSERT INTO "fix" VALUES(13,'Velm Road','sighting',4.19966119670522104474e+01,75.6871975575738,1.78745683432535111025e+03,1.37410453822443940903e+01,'[["Velm Road",null]]');
INSERT INTO "fix" VALUES(15,'','baseplate',4.19966612263740586303e+01,7.56870001352907308947e+01,0.0,0.0,'[]');
CREATE TABLE height_tile (
  id INTEGER PRIMARY KEY,
  heights_id INTEGER NOT NULL REFERENCES heights (id),
  tile_row INTEGER NOT NULL,
  tile_column INTEGER NOT NULL,
  coding TEXT NOT NULL CHECK (coding IN ('whole', 'float')),
  posts BLOB NOT NULL
) STRICT;
INSERT INTO "height_tile" VALUES(1,1,0,0,'whole',X'78DA6B616667188523175682E3BFB2666AF368588C4498379AFF47340400B450185F');
INSERT INTO "height_tile" VALUES(2,1,0,1,'whole',X'78DA6BE1AAE4CAE302000638018A');
INSERT INTO "height_tile" VALUES(3,2,0,0,'float',X'78DA6360C89F28F041E8D5AC57CC42EBAB6AB800324B0645');
CREATE TABLE heights (
  id INTEGER PRIMARY KEY,
  sheet_id INTEGER NOT NULL REFERENCES sheet (id),
  lattice TEXT NOT NULL,
  column_count INTEGER NOT NULL CHECK (column_count >= 2),
  row_count INTEGER NOT NULL CHECK (row_count >= 2),
  west REAL NOT NULL,
  north REAL NOT NULL,
  step_east REAL NOT NULL CHECK (step_east > 0),
  step_south REAL NOT NULL CHECK (step_south > 0),
  sigma_m REAL NOT NULL CHECK (sigma_m >= 0),
  correlation_m REAL NOT NULL CHECK (correlation_m >= 0),
  source TEXT NOT NULL,
  credit TEXT NOT NULL,
  stored_unix_ms INTEGER NOT NULL
, ellipsoidal INTEGER NOT NULL DEFAULT 0 CHECK (ellipsoidal IN (0, 1))) STRICT;
INSERT INTO "heights" VALUES(1,1,'EPSG:32643',257,3,556000.0,5150000.0,30.0,30.0,9.73,300.0,'velm.hgt','survey of the Velm valley',1789211000000,0);
INSERT INTO "heights" VALUES(2,1,'',2,2,75.5,46.5,0.25,0.5,1.0,50.0,'velm.tif','survey of the Velm valley',1789212000000,1);
CREATE TABLE kept (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  name TEXT NOT NULL,
  fix_entry_id INTEGER NOT NULL REFERENCES entry (id),
  stretch INTEGER NOT NULL CHECK (stretch >= 1)
) STRICT;
INSERT INTO "kept" VALUES(4,'car',3,1);
CREATE TABLE leg (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  bearing_deg REAL NOT NULL,
  north TEXT NOT NULL CHECK (north IN ('mag', 'grid', 'true')),
  distance REAL NOT NULL CHECK (distance > 0),
  unit TEXT NOT NULL CHECK (unit IN ('m', 'single', 'double')),
  detour_side TEXT CHECK (detour_side IN ('left', 'right')),
  detour_distance REAL CHECK (detour_distance > 0),
  detour_unit TEXT CHECK (detour_unit IN ('m', 'single', 'double')),
  met TEXT
) STRICT;
INSERT INTO "leg" VALUES(5,52.0,'mag',90.0,'double',NULL,NULL,NULL,'split boulder');
INSERT INTO "leg" VALUES(6,85.0,'mag',150.0,'double','right',40.0,'double',NULL);
INSERT INTO "leg" VALUES(7,31.0,'mag',120.0,'double',NULL,NULL,NULL,'old fence');
INSERT INTO "leg" VALUES(8,348.0,'mag',95.0,'double',NULL,NULL,NULL,'spring');
INSERT INTO "leg" VALUES(9,24.0,'mag',110.0,'double',NULL,NULL,NULL,'the cairn');
CREATE TABLE pace (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  double_per_100_m REAL NOT NULL,
  spread_share REAL NOT NULL
) STRICT;
INSERT INTO "pace" VALUES(1,61.0,0.03);
CREATE TABLE sheet (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  draft TEXT NOT NULL CHECK (json_valid(draft)),
  carried_unix_ms INTEGER NOT NULL
) STRICT;
INSERT INTO "sheet" VALUES(1,'Velm valley','{"name":"Velm valley","grid":null,"position_spread_m":12.0,"lines":[{"name":"Velm Road","kind":"road","points":[[41.9906406104055,75.6713150762909],[41.99142139216192,75.67639394662949],[41.9917545117498,75.68098524241324],[41.992091771008,75.68485224178474],[41.993516859855305,75.68752366896537],[41.99549384475183,75.68826937404083],[41.9974867361405,75.68635898311285],[41.99912511007953,75.68347871710905],[42.001112183088054,75.6825339948014],[42.00362524476589,75.68400989235506]],"spread_m":2.886751345948129},{"name":"Issa Creek","kind":"creek","points":[[41.987437333698274,75.67997344808266],[41.9917545117498,75.68098524241324],[41.99426472745456,75.68294376949488],[41.99642186344833,75.68369127017168],[41.99868916080659,75.68105917478417],[42.00185200311928,75.67928165577945],[42.005452269824204,75.67968222360552]],"spread_m":2.886751345948129}],"known_points":[{"name":"Ossel bridge","on":"Velm Road","at":[41.9917545117498,75.68098524241324]},{"name":"Milestone 4","on":"Velm Road","at":[42.001112183088054,75.6825339948014]}],"landmarks":[{"name":"Sorn chapel","kind":"church","at":[42.00448390027856,75.69102286837634],"spread_m":2.886751345948129},{"name":"Hallik mast","kind":"mast","at":[41.99614130258795,75.70035025140447],"spread_m":2.886751345948129},{"name":"Old kiln","kind":"chimney","at":[41.99861324569307,75.69373645398076],"spread_m":2.886751345948129},{"name":"Torn Top","kind":"summit","at":[42.00409008897605,75.6965732927082],"spread_m":30.138568866708543}]}',1789200000000);
CREATE TABLE "sighting" (
  id INTEGER PRIMARY KEY,
  entry_id INTEGER NOT NULL REFERENCES entry (id),
  observed TEXT NOT NULL CHECK (json_valid(observed))
) STRICT;
INSERT INTO "sighting" VALUES(1,2,'{"what":"bearing","landmark":"Sorn chapel","bearing":"16.0000000000 mag","spread_deg":null}');
INSERT INTO "sighting" VALUES(2,3,'{"what":"bearing","landmark":"Sorn chapel","bearing":"16.0000000000 mag","spread_deg":null}');
INSERT INTO "sighting" VALUES(3,3,'{"what":"bearing","landmark":"Hallik mast","bearing":"88.0000000000 mag","spread_deg":null}');
INSERT INTO "sighting" VALUES(4,11,'{"what":"here","known":"Milestone 4","spread_m":20.0}');
INSERT INTO "sighting" VALUES(5,11,'{"what":"bearing","landmark":"Sorn chapel","one_of":null,"place":null,"spread_m":null,"bearing":"059 mag","spread_deg":null}');
INSERT INTO "sighting" VALUES(6,12,'{"what":"bearing","landmark":"Sorn chapel","one_of":null,"place":null,"spread_m":null,"bearing":"016 mag","spread_deg":2.0}');
INSERT INTO "sighting" VALUES(7,12,'{"what":"bearing","landmark":null,"one_of":["Hallik mast","Old kiln"],"place":null,"spread_m":null,"bearing":"088 mag","spread_deg":null}');
INSERT INTO "sighting" VALUES(8,12,'{"what":"bearing","landmark":null,"one_of":null,"place":"5768 5046","spread_m":60.0,"bearing":"041 mag","spread_deg":null}');
INSERT INTO "sighting" VALUES(9,12,'{"what":"running","landmark":"Old kiln","first":"078 mag","second":"061 mag","run_m":150.0,"run_spread_percent":null,"run":null,"towards":"Ossel bridge","spread_deg":null}');
INSERT INTO "sighting" VALUES(10,12,'{"what":"line-run","bearing":"330 mag","spread_deg":8.0}');
INSERT INTO "sighting" VALUES(11,12,'{"what":"angle","left":"Sorn chapel","right":"Hallik mast","angle_deg":72.0,"spread_deg":null}');
INSERT INTO "sighting" VALUES(12,12,'{"what":"side","landmark":"Hallik mast","side":"right","towards":"Milestone 4"}');
INSERT INTO "sighting" VALUES(13,12,'{"what":"seen","landmark":"Sorn chapel"}');
INSERT INTO "sighting" VALUES(14,12,'{"what":"not-seen","landmark":"Torn Top"}');
INSERT INTO "sighting" VALUES(15,12,'{"what":"trip","from":"Ossel bridge","distance_m":800.0,"step_m":100.0,"scale_percent":null,"towards":"Milestone 4"}');
INSERT INTO "sighting" VALUES(16,12,'{"what":"paces","from":"Ossel bridge","paces":490.0,"pace_kind":"double","towards":"Milestone 4"}');
INSERT INTO "sighting" VALUES(17,13,'{"what":"bearing","landmark":"Sorn chapel","one_of":null,"place":null,"spread_m":null,"bearing":"016 mag","spread_deg":null}');
INSERT INTO "sighting" VALUES(18,13,'{"what":"witness","place":"43TEG 5691 4962","spread_m":null}');
INSERT INTO "sighting" VALUES(19,13,'{"what":"here","known":null,"kind":"bend","spread_m":null}');
INSERT INTO "sighting" VALUES(20,13,'{"what":"distance","landmark":"Hallik mast","distance_m":1100.0,"spread_m":null}');
INSERT INTO "sighting" VALUES(21,15,'{"what":"bearing","landmark":"Sorn chapel","one_of":null,"place":null,"spread_m":null,"bearing":"016 mag","spread_deg":null}');
INSERT INTO "sighting" VALUES(22,15,'{"what":"bearing","landmark":"Hallik mast","one_of":null,"place":null,"spread_m":null,"bearing":"088 mag","spread_deg":null}');
CREATE TABLE strike (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  at_unix_ms INTEGER NOT NULL
) STRICT;
CREATE TABLE trip (
  id INTEGER PRIMARY KEY,
  sheet_id INTEGER NOT NULL REFERENCES sheet (id),
  opened_unix_ms INTEGER NOT NULL
) STRICT;
INSERT INTO "trip" VALUES(1,1,1789200000000);
CREATE TABLE witness (
  entry_id INTEGER PRIMARY KEY REFERENCES entry (id),
  lat_deg REAL NOT NULL,
  lon_deg REAL NOT NULL,
  spread_m REAL NOT NULL
, typed TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "witness" VALUES(14,4.19965810774563834666e+01,7.56871944304216839318e+01,2.88675134594812909938e+00,'5691 4962');
CREATE INDEX entry_of_trip ON entry (trip_id, id);
CREATE INDEX heights_of_sheet ON heights (sheet_id, id);
CREATE UNIQUE INDEX tile_of_heights ON height_tile (heights_id, tile_row, tile_column);
CREATE INDEX sighting_of_entry ON sighting (entry_id, id);
COMMIT;
