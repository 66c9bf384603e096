1000 ' tiny: scene tiny for target t, written by scenekit
1001 DIM sk.red%(255)
1002 DIM sk.green%(255)
1003 DIM sk.blue%(255)
1004 DIM sk.moving.entry%(0)
1005 DIM sk.cycle.first%(0)
1006 DIM sk.cycle.count%(0)
1007 DIM sk.cycle.ticks%(0)
1008 DIM sk.cycle.period%(0)
1009 DIM sk.cycle.back%(0)
1010 DIM sk.event.tick!(0)
1011 DIM sk.event.steps%(0)
1012 DIM sk.event.wait%(0)
1013 DIM sk.event.first%(0)
1014 DIM sk.event.count%(0)
1015 DIM sk.event.colour%(0)
1016 DIM sk.event.entry%(0)
1017 DIM sk.cover.tick%(0)
1018 DIM sk.cover.ticks%(0)
1019 DIM sk.cover.opens%(0)
1020 DIM sk.cover.entry%(0)
1021 DIM sk.cover.columns%(0)
1022 DIM sk.cover.cells%(0)
1023 DIM sk.cover.w%(0)
1024 DIM sk.cover.h%(0)
1025 DIM sk.cover.first%(0)
1026 DIM sk.cover.begin%(0)
1027 DIM sk.cover.cell%(0)
1028 DIM sk.cover.count%(0)
1029 DIM sk.plane.columns%(0)
1030 DIM sk.plane.rows%(0)
1031 DIM sk.tile.w%(0)
1032 DIM sk.tile.h%(0)
1033 DIM sk.last.w%(0)
1034 DIM sk.last.h%(0)
1035 DIM sk.plane.w%(0)
1036 DIM sk.plane.h%(0)
1037 DIM sk.map.first%(0)
1038 DIM sk.wrap.x%(0)
1039 DIM sk.ratio.x%(0)
1040 DIM sk.ratio.parts.x%(0)
1041 DIM sk.drift.x%(0)
1042 DIM sk.drift.step.x%(0)
1043 DIM sk.drift.parts.x%(0)
1044 DIM sk.plane.start.x!(0)
1045 DIM sk.plane.start.part.x%(0)
1046 DIM sk.start.base.x!(0)
1047 DIM sk.wrap.y%(0)
1048 DIM sk.ratio.y%(0)
1049 DIM sk.ratio.parts.y%(0)
1050 DIM sk.drift.y%(0)
1051 DIM sk.drift.step.y%(0)
1052 DIM sk.drift.parts.y%(0)
1053 DIM sk.plane.start.y!(0)
1054 DIM sk.plane.start.part.y%(0)
1055 DIM sk.start.base.y!(0)
1056 DIM sk.map.cell%(0)
1057 DIM sk.piece.w%(0)
1058 DIM sk.piece.h%(0)
1059 DIM sk.order%(0)
1060 DIM sk.flag.first%(0)
1061 DIM sk.flag.columns%(0)
1062 DIM sk.flag.w%(0)
1063 DIM sk.flag.h%(0)
1064 DIM sk.flag.cell%(0)
1065 DIM sk.frame.cell%(0)
1066 DIM sk.frame.x%(0)
1067 DIM sk.frame.y%(0)
1068 DIM sk.pivot.x%(0)
1069 DIM sk.pivot.y%(0)
1070 DIM sk.hit.x%(0)
1071 DIM sk.hit.y%(0)
1072 DIM sk.hit.w%(0)
1073 DIM sk.hit.h%(0)
1074 DIM sk.animation.first%(0)
1075 DIM sk.animation.count%(0)
1076 DIM sk.animation.again%(0)
1077 DIM sk.step.frame%(0)
1078 DIM sk.step.ticks%(0)
1079 DIM sk.step.flip%(0)
1080 DIM sk.look%(0)
1081 DIM sk.start.x!(0)
1082 DIM sk.start.y!(0)
1083 DIM sk.path.first%(0)
1084 DIM sk.path.count%(0)
1085 DIM sk.path.repeat%(0)
1086 DIM sk.segment.ticks%(0)
1087 DIM sk.segment.x%(0)
1088 DIM sk.segment.part.x%(0)
1089 DIM sk.segment.parts.x%(0)
1090 DIM sk.segment.y%(0)
1091 DIM sk.segment.part.y%(0)
1092 DIM sk.segment.parts.y%(0)
1093 DIM sk.segment.does%(0)
1094 DIM sk.segment.face%(0)
1095 DIM sk.actor.look%(0)
1096 DIM sk.actor.plane%(0)
1097 DIM sk.start.does%(0)
1098 DIM sk.start.face%(0)
1099 DIM sk.mover.x!(0)
1100 DIM sk.mover.y!(0)
1101 DIM sk.mover.part.x%(0)
1102 DIM sk.mover.part.y%(0)
1103 DIM sk.mover.used%(0)
1104 DIM sk.mover.segment%(0)
1105 DIM sk.plane.x!(0)
1106 DIM sk.plane.y!(0)
1107 DIM sk.plane.part.x!(0)
1108 DIM sk.plane.part.y!(0)
1109 DIM sk.drift.part.x%(0)
1110 DIM sk.drift.part.y%(0)
1111 DIM sk.wrap.base.x!(0)
1112 DIM sk.wrap.base.y!(0)
1113 DIM sk.actor.does%(0)
1114 DIM sk.actor.face%(0)
1115 DIM sk.actor.shows%(0)
1116 DIM sk.actor.flip%(0)
1117 DIM sk.actor.step%(0)
1118 DIM sk.actor.left%(0)
1119 DIM sk.cycle.shift%(0)
1120 DIM sk.cycle.left%(0)
1121 DIM sk.cycle.turn%(0)
1122 DIM sk.cover.used%(0)
1123 DIM sk.cover.done%(0)
1124 DIM sk.event.done%(0)
1125 DIM sk.event.next!(0)
1126 DIM sk.now%(255)
1127 GOSUB 1137
1128 GOSUB 1288
1129 OPEN "stops.txt" FOR INPUT AS 2
1130 sk.stop!=-1:IF NOT EOF(2) THEN INPUT#2,sk.stop!
1131 IF sk.stop!<0 THEN 1135
1132 s!=sk.stop!
1133 GOSUB 1661
1134 GOTO 1136
1135 PRINT#3,0
1136 SYSTEM
1137 sk.tick!=0
1138 sk.page%=0
1139 sk.view.w%=16
1140 sk.view.h%=8
1141 sk.transparent%=0
1142 sk.backdrop%=3
1143 sk.clear.first%=1
1144 sk.entries%=256
1145 sk.moving%=0
1146 sk.pieces%=1
1147 sk.planes%=1
1148 sk.actors%=0
1149 sk.movers%=1
1150 sk.cycles%=0
1151 sk.events%=0
1152 sk.covers%=0
1153 sk.order.count%=1
1154 sk.ticks.per.update%=1
1155 RESTORE 1802
1156 FOR i%=0 TO 255
1157 READ sk.red%(i%)
1158 NEXT
1159 FOR i%=0 TO 255
1160 READ sk.green%(i%)
1161 NEXT
1162 FOR i%=0 TO 255
1163 READ sk.blue%(i%)
1164 NEXT
1165 FOR i%=0 TO 0
1166 READ sk.plane.columns%(i%)
1167 NEXT
1168 FOR i%=0 TO 0
1169 READ sk.plane.rows%(i%)
1170 NEXT
1171 FOR i%=0 TO 0
1172 READ sk.tile.w%(i%)
1173 NEXT
1174 FOR i%=0 TO 0
1175 READ sk.tile.h%(i%)
1176 NEXT
1177 FOR i%=0 TO 0
1178 READ sk.last.w%(i%)
1179 NEXT
1180 FOR i%=0 TO 0
1181 READ sk.last.h%(i%)
1182 NEXT
1183 FOR i%=0 TO 0
1184 READ sk.plane.w%(i%)
1185 NEXT
1186 FOR i%=0 TO 0
1187 READ sk.plane.h%(i%)
1188 NEXT
1189 FOR i%=0 TO 0
1190 READ sk.map.first%(i%)
1191 NEXT
1192 FOR i%=0 TO 0
1193 READ sk.wrap.x%(i%)
1194 NEXT
1195 FOR i%=0 TO 0
1196 READ sk.ratio.x%(i%)
1197 NEXT
1198 FOR i%=0 TO 0
1199 READ sk.ratio.parts.x%(i%)
1200 NEXT
1201 FOR i%=0 TO 0
1202 READ sk.drift.x%(i%)
1203 NEXT
1204 FOR i%=0 TO 0
1205 READ sk.drift.step.x%(i%)
1206 NEXT
1207 FOR i%=0 TO 0
1208 READ sk.drift.parts.x%(i%)
1209 NEXT
1210 FOR i%=0 TO 0
1211 READ sk.plane.start.x!(i%)
1212 NEXT
1213 FOR i%=0 TO 0
1214 READ sk.plane.start.part.x%(i%)
1215 NEXT
1216 FOR i%=0 TO 0
1217 READ sk.start.base.x!(i%)
1218 NEXT
1219 FOR i%=0 TO 0
1220 READ sk.wrap.y%(i%)
1221 NEXT
1222 FOR i%=0 TO 0
1223 READ sk.ratio.y%(i%)
1224 NEXT
1225 FOR i%=0 TO 0
1226 READ sk.ratio.parts.y%(i%)
1227 NEXT
1228 FOR i%=0 TO 0
1229 READ sk.drift.y%(i%)
1230 NEXT
1231 FOR i%=0 TO 0
1232 READ sk.drift.step.y%(i%)
1233 NEXT
1234 FOR i%=0 TO 0
1235 READ sk.drift.parts.y%(i%)
1236 NEXT
1237 FOR i%=0 TO 0
1238 READ sk.plane.start.y!(i%)
1239 NEXT
1240 FOR i%=0 TO 0
1241 READ sk.plane.start.part.y%(i%)
1242 NEXT
1243 FOR i%=0 TO 0
1244 READ sk.start.base.y!(i%)
1245 NEXT
1246 FOR i%=0 TO 0
1247 READ sk.map.cell%(i%)
1248 NEXT
1249 FOR i%=0 TO 0
1250 READ sk.piece.w%(i%)
1251 NEXT
1252 FOR i%=0 TO 0
1253 READ sk.piece.h%(i%)
1254 NEXT
1255 FOR i%=0 TO 0
1256 READ sk.order%(i%)
1257 NEXT
1258 FOR i%=0 TO 0
1259 READ sk.flag.first%(i%)
1260 NEXT
1261 FOR i%=0 TO 0
1262 READ sk.flag.columns%(i%)
1263 NEXT
1264 FOR i%=0 TO 0
1265 READ sk.flag.w%(i%)
1266 NEXT
1267 FOR i%=0 TO 0
1268 READ sk.flag.h%(i%)
1269 NEXT
1270 FOR i%=0 TO 0
1271 READ sk.start.x!(i%)
1272 NEXT
1273 FOR i%=0 TO 0
1274 READ sk.start.y!(i%)
1275 NEXT
1276 FOR i%=0 TO 0
1277 READ sk.path.first%(i%)
1278 NEXT
1279 FOR i%=0 TO 0
1280 READ sk.path.count%(i%)
1281 NEXT
1282 FOR i%=0 TO 0
1283 READ sk.path.repeat%(i%)
1284 NEXT
1285 sk.pages%=2
1286 GOSUB 1628
1287 RETURN
1288 GOSUB 1290
1289 RETURN
1290 sk.tick!=0
1291 FOR i%=0 TO sk.movers%-1
1292 sk.mover.x!(i%)=sk.start.x!(i%)
1293 sk.mover.y!(i%)=sk.start.y!(i%)
1294 sk.mover.part.x%(i%)=0
1295 sk.mover.part.y%(i%)=0
1296 sk.mover.used%(i%)=0
1297 sk.mover.segment%(i%)=0
1298 IF sk.path.count%(i%)<>0 THEN 1300
1299 sk.mover.segment%(i%)=-1
1300 NEXT
1301 FOR i%=0 TO sk.planes%-1
1302 sk.plane.x!(i%)=sk.plane.start.x!(i%)
1303 sk.plane.y!(i%)=sk.plane.start.y!(i%)
1304 sk.plane.part.x!(i%)=sk.plane.start.part.x%(i%)
1305 sk.plane.part.y!(i%)=sk.plane.start.part.y%(i%)
1306 sk.drift.part.x%(i%)=0
1307 sk.drift.part.y%(i%)=0
1308 sk.wrap.base.x!(i%)=sk.start.base.x!(i%)
1309 sk.wrap.base.y!(i%)=sk.start.base.y!(i%)
1310 i2%=i%
1311 GOSUB 1473
1312 NEXT
1313 FOR i%=0 TO sk.actors%-1
1314 sk.actor.face%(i%)=sk.start.face%(i%)
1315 sk.actor.does%(i%)=sk.start.does%(i%)
1316 sk.actor.shows%(i%)=-1
1317 i2%=i%
1318 GOSUB 1409
1319 NEXT
1320 FOR i%=1 TO sk.movers%-1
1321 m%=i%
1322 GOSUB 1399
1323 NEXT
1324 FOR i%=0 TO sk.cycles%-1
1325 sk.cycle.shift%(i%)=0
1326 sk.cycle.turn%(i%)=0
1327 sk.cycle.left%(i%)=sk.cycle.ticks%(i%)
1328 NEXT
1329 FOR i%=0 TO sk.events%-1
1330 sk.event.done%(i%)=0
1331 sk.event.next!(i%)=sk.event.tick!(i%)
1332 NEXT
1333 FOR i%=0 TO sk.covers%-1
1334 sk.cover.used%(i%)=0
1335 sk.cover.done%(i%)=0
1336 i2%=i%
1337 GOSUB 1360
1338 NEXT
1339 GOSUB 1512
1340 RETURN
1341 sk.tick!=sk.tick!+1
1342 x!=sk.mover.x!(0)
1343 y!=sk.mover.y!(0)
1344 m2%=0
1345 GOSUB 1365
1346 u!=sk.mover.x!(0)-x!
1347 v!=sk.mover.y!(0)-y!
1348 GOSUB 1437
1349 FOR i%=0 TO sk.planes%-1
1350 i3%=i%
1351 GOSUB 1460
1352 NEXT
1353 GOSUB 1654
1354 FOR i%=0 TO sk.covers%-1
1355 i2%=i%
1356 GOSUB 1360
1357 NEXT
1358 GOSUB 1486
1359 RETURN
1360 IF sk.tick!<sk.cover.tick%(i2%) THEN 1364
1361 IF sk.cover.used%(i2%)>=sk.cover.ticks%(i2%) THEN 1364
1362 sk.cover.used%(i2%)=sk.cover.used%(i2%)+1
1363 sk.cover.done%(i2%)=sk.cover.count%(sk.cover.begin%(i2%)+sk.cover.used%(i2%))
1364 RETURN
1365 s2!=sk.mover.segment%(m2%)
1366 IF s2!>=0 THEN 1368
1367 RETURN
1368 s2!=sk.path.first%(m2%)+s2!
1369 sk.mover.x!(m2%)=sk.mover.x!(m2%)+sk.segment.x%(s2!)
1370 sk.mover.part.x%(m2%)=sk.mover.part.x%(m2%)+sk.segment.part.x%(s2!)
1371 IF sk.mover.part.x%(m2%)<sk.segment.parts.x%(s2!) THEN 1374
1372 sk.mover.part.x%(m2%)=sk.mover.part.x%(m2%)-sk.segment.parts.x%(s2!)
1373 sk.mover.x!(m2%)=sk.mover.x!(m2%)+1
1374 sk.mover.y!(m2%)=sk.mover.y!(m2%)+sk.segment.y%(s2!)
1375 sk.mover.part.y%(m2%)=sk.mover.part.y%(m2%)+sk.segment.part.y%(s2!)
1376 IF sk.mover.part.y%(m2%)<sk.segment.parts.y%(s2!) THEN 1379
1377 sk.mover.part.y%(m2%)=sk.mover.part.y%(m2%)-sk.segment.parts.y%(s2!)
1378 sk.mover.y!(m2%)=sk.mover.y!(m2%)+1
1379 sk.mover.used%(m2%)=sk.mover.used%(m2%)+1
1380 IF sk.mover.used%(m2%)<>sk.segment.ticks%(s2!) THEN 1383
1381 m3%=m2%
1382 GOSUB 1384
1383 RETURN
1384 sk.mover.used%(m3%)=0
1385 sk.mover.part.x%(m3%)=0
1386 sk.mover.part.y%(m3%)=0
1387 sk.mover.segment%(m3%)=sk.mover.segment%(m3%)+1
1388 IF sk.mover.segment%(m3%)<>sk.path.count%(m3%) THEN 1395
1389 sk.mover.segment%(m3%)=0
1390 IF sk.path.repeat%(m3%)<>0 THEN 1392
1391 sk.mover.segment%(m3%)=-1
1392 IF sk.path.repeat%(m3%)<>1 THEN 1395
1393 sk.mover.x!(m3%)=sk.start.x!(m3%)
1394 sk.mover.y!(m3%)=sk.start.y!(m3%)
1395 IF m3%<=0 THEN 1398
1396 m%=m3%
1397 GOSUB 1399
1398 RETURN
1399 IF sk.mover.segment%(m%)>=0 THEN 1401
1400 RETURN
1401 s3!=sk.path.first%(m%)+sk.mover.segment%(m%)
1402 IF sk.segment.does%(s3!)<0 THEN 1404
1403 sk.actor.does%(m%-1)=sk.segment.does%(s3!)
1404 IF sk.segment.face%(s3!)<0 THEN 1406
1405 sk.actor.face%(m%-1)=sk.segment.face%(s3!)
1406 i2%=m%-1
1407 GOSUB 1409
1408 RETURN
1409 n%=sk.look%(sk.actor.look%(i2%)+4*sk.actor.does%(i2%)+sk.actor.face%(i2%))
1410 sk.actor.flip%(i2%)=(n%-4*INT(n%/4))
1411 n%=INT(n%/4)
1412 IF n%=sk.actor.shows%(i2%) THEN 1416
1413 sk.actor.shows%(i2%)=n%
1414 sk.actor.step%(i2%)=0
1415 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%))
1416 RETURN
1417 sk.mover.segment%(i%+1)=-1
1418 RETURN
1419 sk.actor.does%(i%)=n2%
1420 i2%=i%
1421 GOSUB 1409
1422 RETURN
1423 sk.actor.face%(i%)=f%
1424 i2%=i%
1425 GOSUB 1409
1426 RETURN
1427 n%=sk.actor.shows%(i2%)
1428 sk.actor.left%(i2%)=sk.actor.left%(i2%)-1
1429 IF sk.actor.left%(i2%)<>0 THEN 1436
1430 sk.actor.step%(i2%)=sk.actor.step%(i2%)+1
1431 IF sk.actor.step%(i2%)<>sk.animation.count%(n%) THEN 1435
1432 sk.actor.step%(i2%)=0
1433 IF sk.animation.again%(n%)<>0 THEN 1435
1434 sk.actor.step%(i2%)=sk.animation.count%(n%)-1
1435 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%)+sk.actor.step%(i2%))
1436 RETURN
1437 FOR i3%=0 TO sk.planes%-1
1438 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.x%(i3%)*u!
1439 IF sk.plane.part.x!(i3%)>=0 THEN 1443
1440 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.parts.x%(i3%)
1441 sk.plane.x!(i3%)=sk.plane.x!(i3%)-1
1442 GOTO 1439
1443 IF sk.plane.part.x!(i3%)<sk.ratio.parts.x%(i3%) THEN 1447
1444 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)-sk.ratio.parts.x%(i3%)
1445 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1446 GOTO 1443
1447 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.y%(i3%)*v!
1448 IF sk.plane.part.y!(i3%)>=0 THEN 1452
1449 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.parts.y%(i3%)
1450 sk.plane.y!(i3%)=sk.plane.y!(i3%)-1
1451 GOTO 1448
1452 IF sk.plane.part.y!(i3%)<sk.ratio.parts.y%(i3%) THEN 1456
1453 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)-sk.ratio.parts.y%(i3%)
1454 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1455 GOTO 1452
1456 i2%=i3%
1457 GOSUB 1473
1458 NEXT
1459 RETURN
1460 sk.plane.x!(i3%)=sk.plane.x!(i3%)+sk.drift.x%(i3%)
1461 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)+sk.drift.step.x%(i3%)
1462 IF sk.drift.part.x%(i3%)<sk.drift.parts.x%(i3%) THEN 1465
1463 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)-sk.drift.parts.x%(i3%)
1464 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1465 sk.plane.y!(i3%)=sk.plane.y!(i3%)+sk.drift.y%(i3%)
1466 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)+sk.drift.step.y%(i3%)
1467 IF sk.drift.part.y%(i3%)<sk.drift.parts.y%(i3%) THEN 1470
1468 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)-sk.drift.parts.y%(i3%)
1469 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1470 i2%=i3%
1471 GOSUB 1473
1472 RETURN
1473 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)>=0 THEN 1476
1474 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)-sk.plane.w%(i2%)
1475 GOTO 1473
1476 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)<sk.plane.w%(i2%) THEN 1479
1477 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)+sk.plane.w%(i2%)
1478 GOTO 1476
1479 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)>=0 THEN 1482
1480 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)-sk.plane.h%(i2%)
1481 GOTO 1479
1482 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)<sk.plane.h%(i2%) THEN 1485
1483 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)+sk.plane.h%(i2%)
1484 GOTO 1482
1485 RETURN
1486 changed%=0
1487 FOR i2%=0 TO sk.cycles%-1
1488 sk.cycle.left%(i2%)=sk.cycle.left%(i2%)-1
1489 IF sk.cycle.left%(i2%)<>0 THEN 1493
1490 i3%=i2%
1491 GOSUB 1504
1492 changed%=1
1493 NEXT
1494 FOR i2%=0 TO sk.events%-1
1495 IF sk.event.done%(i2%)>=sk.event.steps%(i2%) THEN 1500
1496 IF sk.tick!<sk.event.next!(i2%) THEN 1500
1497 sk.event.done%(i2%)=sk.event.done%(i2%)+1
1498 sk.event.next!(i2%)=sk.event.next!(i2%)+sk.event.wait%(i2%)
1499 changed%=1
1500 NEXT
1501 IF changed%<>1 THEN 1503
1502 GOSUB 1512
1503 RETURN
1504 sk.cycle.left%(i3%)=sk.cycle.ticks%(i3%)
1505 sk.cycle.turn%(i3%)=((sk.cycle.turn%(i3%)+1)-sk.cycle.period%(i3%)*INT((sk.cycle.turn%(i3%)+1)/sk.cycle.period%(i3%)))
1506 sk.cycle.shift%(i3%)=sk.cycle.turn%(i3%)
1507 IF sk.cycle.turn%(i3%)<sk.cycle.count%(i3%) THEN 1509
1508 sk.cycle.shift%(i3%)=sk.cycle.period%(i3%)-sk.cycle.turn%(i3%)
1509 IF sk.cycle.back%(i3%)<>1 THEN 1511
1510 sk.cycle.shift%(i3%)=((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1511 RETURN
1512 FOR i3%=0 TO sk.cycles%-1
1513 FOR j%=0 TO sk.cycle.count%(i3%)-1
1514 sk.now%(sk.cycle.first%(i3%)+j%)=sk.cycle.first%(i3%)+((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1515 NEXT
1516 NEXT
1517 FOR i3%=0 TO sk.events%-1
1518 IF sk.event.done%(i3%)<=0 THEN 1522
1519 FOR j%=0 TO sk.event.count%(i3%)-1
1520 sk.now%(sk.event.entry%(sk.event.first%(i3%)+j%))=sk.event.colour%(i3%)+(sk.event.done%(i3%)-1)*sk.event.count%(i3%)+j%
1521 NEXT
1522 NEXT
1523 RETURN
1524 sk.pose.x!=sk.mover.x!(i%+1)
1525 sk.pose.y!=sk.mover.y!(i%+1)
1526 IF sk.actor.plane%(i%)<0 THEN 1529
1527 sk.pose.x!=sk.pose.x!-sk.plane.x!(sk.actor.plane%(i%))
1528 sk.pose.y!=sk.pose.y!-sk.plane.y!(sk.actor.plane%(i%))
1529 n%=sk.animation.first%(sk.actor.shows%(i%))+sk.actor.step%(i%)
1530 sk.pose.frame%=sk.step.frame%(n%)
1531 sk.pose.flip%=(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))-2*INT(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))/2))
1532 sk.pose.flip%=sk.pose.flip%+((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))-2*INT((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))/2))*2
1533 RETURN
1534 i%=i2%
1535 GOSUB 1524
1536 sk.hit.wide%=sk.hit.w%(sk.pose.frame%)
1537 sk.hit.high%=sk.hit.h%(sk.pose.frame%)
1538 sk.hit.left!=sk.pose.x!+sk.hit.x%(sk.pose.frame%)
1539 IF (sk.pose.flip%-2*INT(sk.pose.flip%/2))<>1 THEN 1541
1540 sk.hit.left!=sk.pose.x!-sk.hit.x%(sk.pose.frame%)-sk.hit.wide%+1
1541 sk.hit.top!=sk.pose.y!+sk.hit.y%(sk.pose.frame%)
1542 IF INT(sk.pose.flip%/2)<>1 THEN 1544
1543 sk.hit.top!=sk.pose.y!-sk.hit.y%(sk.pose.frame%)-sk.hit.high%+1
1544 RETURN
1545 sk.touching%=0
1546 i2%=i3%
1547 GOSUB 1534
1548 x!=sk.hit.left!
1549 y!=sk.hit.top!
1550 w%=sk.hit.wide%
1551 h%=sk.hit.high%
1552 i2%=j%
1553 GOSUB 1534
1554 IF w%=0 THEN 1556
1555 IF sk.hit.wide%<>0 THEN 1557
1556 RETURN
1557 IF x!>=sk.hit.left!+sk.hit.wide% THEN 1562
1558 IF sk.hit.left!>=x!+w% THEN 1562
1559 IF y!>=sk.hit.top!+sk.hit.high% THEN 1562
1560 IF sk.hit.top!>=y!+h% THEN 1562
1561 sk.touching%=1
1562 RETURN
1563 sk.flags%=0
1564 IF sk.flag.first%(p%)>=0 THEN 1566
1565 RETURN
1566 IF sk.wrap.x%(p%)<>1 THEN 1571
1567 IF x!>=0 THEN 1570
1568 x!=x!+sk.plane.w%(p%)
1569 GOTO 1567
1570 x!=(x!-sk.plane.w%(p%)*INT(x!/sk.plane.w%(p%)))
1571 IF sk.wrap.y%(p%)<>1 THEN 1576
1572 IF y!>=0 THEN 1575
1573 y!=y!+sk.plane.h%(p%)
1574 GOTO 1572
1575 y!=(y!-sk.plane.h%(p%)*INT(y!/sk.plane.h%(p%)))
1576 IF x!<0 THEN 1580
1577 IF y!<0 THEN 1580
1578 IF x!>=sk.plane.w%(p%) THEN 1580
1579 IF y!<sk.plane.h%(p%) THEN 1581
1580 RETURN
1581 p2%=p%
1582 n%=INT(y!/sk.flag.h%(p%))*sk.flag.columns%(p%)+INT(x!/sk.flag.w%(p%))
1583 GOSUB 1652
1584 RETURN
1585 PRINT#3,sk.tick!
1586 PRINT#3,sk.mover.x!(0)
1587 PRINT#3,sk.mover.y!(0)
1588 FOR i4%=0 TO sk.planes%-1
1589 PRINT#3,sk.plane.x!(i4%)
1590 PRINT#3,sk.plane.y!(i4%)
1591 NEXT
1592 FOR i4%=0 TO sk.actors%-1
1593 PRINT#3,sk.mover.x!(i4%+1)
1594 PRINT#3,sk.mover.y!(i4%+1)
1595 n2%=sk.animation.first%(sk.actor.shows%(i4%))+sk.actor.step%(i4%)
1596 PRINT#3,sk.step.frame%(n2%)
1597 PRINT#3,sk.actor.flip%(i4%)
1598 NEXT
1599 FOR i4%=0 TO sk.actors%-1
1600 i2%=i4%
1601 GOSUB 1534
1602 PRINT#3,sk.hit.left!
1603 PRINT#3,sk.hit.top!
1604 PRINT#3,sk.hit.wide%
1605 PRINT#3,sk.hit.high%
1606 IF i4%<=0 THEN 1611
1607 i3%=i4%-1
1608 j%=i4%
1609 GOSUB 1545
1610 PRINT#3,sk.touching%
1611 IF sk.actor.plane%(i4%)<0 THEN 1617
1612 p%=sk.actor.plane%(i4%)
1613 x!=sk.mover.x!(i4%+1)
1614 y!=sk.mover.y!(i4%+1)+1
1615 GOSUB 1563
1616 PRINT#3,sk.flags%
1617 NEXT
1618 FOR i4%=0 TO sk.covers%-1
1619 PRINT#3,sk.cover.done%(i4%)
1620 NEXT
1621 FOR i4%=0 TO sk.moving%-1
1622 n2%=sk.now%(sk.moving.entry%(i4%))
1623 PRINT#3,sk.red%(n2%)
1624 PRINT#3,sk.green%(n2%)
1625 PRINT#3,sk.blue%(n2%)
1626 NEXT
1627 RETURN
1628 FOR i2%=0 TO sk.entries%-1
1629 sk.now%(i2%)=i2%
1630 NEXT
1631 RETURN
1632 sk.held$=INKEY$
1633 k%=-(sk.held$=CHR$(0)+"K")-2*(sk.held$=CHR$(0)+"M")-4*(sk.held$=CHR$(0)+"H")
1634 k%=k%-8*(sk.held$=CHR$(0)+"P")-16*(sk.held$=" ")
1635 n%=k%
1636 GOSUB 1638
1637 RETURN
1638 sk.steer.left%=(n%-2*INT(n%/2))
1639 sk.steer.right%=((INT(n%/2))-2*INT((INT(n%/2))/2))
1640 sk.steer.up%=((INT(n%/4))-2*INT((INT(n%/4))/2))
1641 sk.steer.down%=((INT(n%/8))-2*INT((INT(n%/8))/2))
1642 sk.steer.act%=((INT(n%/16))-2*INT((INT(n%/16))/2))
1643 RETURN
1644 u2!=x!-sk.mover.x!(0)
1645 v2!=y!-sk.mover.y!(0)
1646 sk.mover.x!(0)=x!
1647 sk.mover.y!(0)=y!
1648 u!=u2!
1649 v!=v2!
1650 GOSUB 1437
1651 RETURN
1652 sk.flags%=sk.flag.cell%(sk.flag.first%(p2%)+n%)
1653 RETURN
1654 FOR i3%=0 TO sk.actors%-1
1655 i2%=i3%
1656 GOSUB 1427
1657 m2%=i3%+1
1658 GOSUB 1365
1659 NEXT
1660 RETURN
1661 OPEN "said.txt" FOR OUTPUT AS 3
1662 GOSUB 1672
1663 IF s!<0 THEN 1670
1664 IF sk.tick!>=s! THEN 1667
1665 GOSUB 1341
1666 GOTO 1664
1667 GOSUB 1585
1668 s!=-1:IF NOT EOF(2) THEN INPUT#2,s!
1669 GOTO 1663
1670 CLOSE 3
1671 RETURN
1672 FOR i%=0 TO 255
1673 PRINT#3,sk.red%(i%)
1674 NEXT
1675 FOR i%=0 TO 255
1676 PRINT#3,sk.green%(i%)
1677 NEXT
1678 FOR i%=0 TO 255
1679 PRINT#3,sk.blue%(i%)
1680 NEXT
1681 FOR i%=0 TO 0
1682 PRINT#3,sk.plane.columns%(i%)
1683 NEXT
1684 FOR i%=0 TO 0
1685 PRINT#3,sk.plane.rows%(i%)
1686 NEXT
1687 FOR i%=0 TO 0
1688 PRINT#3,sk.tile.w%(i%)
1689 NEXT
1690 FOR i%=0 TO 0
1691 PRINT#3,sk.tile.h%(i%)
1692 NEXT
1693 FOR i%=0 TO 0
1694 PRINT#3,sk.last.w%(i%)
1695 NEXT
1696 FOR i%=0 TO 0
1697 PRINT#3,sk.last.h%(i%)
1698 NEXT
1699 FOR i%=0 TO 0
1700 PRINT#3,sk.plane.w%(i%)
1701 NEXT
1702 FOR i%=0 TO 0
1703 PRINT#3,sk.plane.h%(i%)
1704 NEXT
1705 FOR i%=0 TO 0
1706 PRINT#3,sk.map.first%(i%)
1707 NEXT
1708 FOR i%=0 TO 0
1709 PRINT#3,sk.wrap.x%(i%)
1710 NEXT
1711 FOR i%=0 TO 0
1712 PRINT#3,sk.ratio.x%(i%)
1713 NEXT
1714 FOR i%=0 TO 0
1715 PRINT#3,sk.ratio.parts.x%(i%)
1716 NEXT
1717 FOR i%=0 TO 0
1718 PRINT#3,sk.drift.x%(i%)
1719 NEXT
1720 FOR i%=0 TO 0
1721 PRINT#3,sk.drift.step.x%(i%)
1722 NEXT
1723 FOR i%=0 TO 0
1724 PRINT#3,sk.drift.parts.x%(i%)
1725 NEXT
1726 FOR i%=0 TO 0
1727 PRINT#3,sk.plane.start.x!(i%)
1728 NEXT
1729 FOR i%=0 TO 0
1730 PRINT#3,sk.plane.start.part.x%(i%)
1731 NEXT
1732 FOR i%=0 TO 0
1733 PRINT#3,sk.start.base.x!(i%)
1734 NEXT
1735 FOR i%=0 TO 0
1736 PRINT#3,sk.wrap.y%(i%)
1737 NEXT
1738 FOR i%=0 TO 0
1739 PRINT#3,sk.ratio.y%(i%)
1740 NEXT
1741 FOR i%=0 TO 0
1742 PRINT#3,sk.ratio.parts.y%(i%)
1743 NEXT
1744 FOR i%=0 TO 0
1745 PRINT#3,sk.drift.y%(i%)
1746 NEXT
1747 FOR i%=0 TO 0
1748 PRINT#3,sk.drift.step.y%(i%)
1749 NEXT
1750 FOR i%=0 TO 0
1751 PRINT#3,sk.drift.parts.y%(i%)
1752 NEXT
1753 FOR i%=0 TO 0
1754 PRINT#3,sk.plane.start.y!(i%)
1755 NEXT
1756 FOR i%=0 TO 0
1757 PRINT#3,sk.plane.start.part.y%(i%)
1758 NEXT
1759 FOR i%=0 TO 0
1760 PRINT#3,sk.start.base.y!(i%)
1761 NEXT
1762 FOR i%=0 TO 0
1763 PRINT#3,sk.map.cell%(i%)
1764 NEXT
1765 FOR i%=0 TO 0
1766 PRINT#3,sk.piece.w%(i%)
1767 NEXT
1768 FOR i%=0 TO 0
1769 PRINT#3,sk.piece.h%(i%)
1770 NEXT
1771 FOR i%=0 TO 0
1772 PRINT#3,sk.order%(i%)
1773 NEXT
1774 FOR i%=0 TO 0
1775 PRINT#3,sk.flag.first%(i%)
1776 NEXT
1777 FOR i%=0 TO 0
1778 PRINT#3,sk.flag.columns%(i%)
1779 NEXT
1780 FOR i%=0 TO 0
1781 PRINT#3,sk.flag.w%(i%)
1782 NEXT
1783 FOR i%=0 TO 0
1784 PRINT#3,sk.flag.h%(i%)
1785 NEXT
1786 FOR i%=0 TO 0
1787 PRINT#3,sk.start.x!(i%)
1788 NEXT
1789 FOR i%=0 TO 0
1790 PRINT#3,sk.start.y!(i%)
1791 NEXT
1792 FOR i%=0 TO 0
1793 PRINT#3,sk.path.first%(i%)
1794 NEXT
1795 FOR i%=0 TO 0
1796 PRINT#3,sk.path.count%(i%)
1797 NEXT
1798 FOR i%=0 TO 0
1799 PRINT#3,sk.path.repeat%(i%)
1800 NEXT
1801 RETURN
1802 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1803 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1804 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1805 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1806 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1807 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1808 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1809 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1810 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1811 DATA 1
1812 DATA 1
1813 DATA 8
1814 DATA 8
1815 DATA 8
1816 DATA 8
1817 DATA 8
1818 DATA 8
1819 DATA 0
1820 DATA 1
1821 DATA 1
1822 DATA 1
1823 DATA 0
1824 DATA 0
1825 DATA 1
1826 DATA 0
1827 DATA 0
1828 DATA 0
1829 DATA 0
1830 DATA 1
1831 DATA 1
1832 DATA 0
1833 DATA 0
1834 DATA 1
1835 DATA 0
1836 DATA 0
1837 DATA 0
1838 DATA 0
1839 DATA 8
1840 DATA 8
1841 DATA 0
1842 DATA -1
1843 DATA 0
1844 DATA 1
1845 DATA 1
1846 DATA 0
1847 DATA 0
1848 DATA 0
1849 DATA 0
1850 DATA 0
1851 END
