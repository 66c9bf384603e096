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
1133 GOSUB 1659
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
1155 RESTORE 1800
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
1286 GOSUB 1626
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
1311 GOSUB 1471
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
1339 GOSUB 1510
1340 RETURN
1341 sk.tick!=sk.tick!+1
1342 x!=sk.mover.x!(0)
1343 y!=sk.mover.y!(0)
1344 m2%=0
1345 GOSUB 1365
1346 u!=sk.mover.x!(0)-x!
1347 v!=sk.mover.y!(0)-y!
1348 GOSUB 1435
1349 FOR i%=0 TO sk.planes%-1
1350 i3%=i%
1351 GOSUB 1458
1352 NEXT
1353 GOSUB 1652
1354 FOR i%=0 TO sk.covers%-1
1355 i2%=i%
1356 GOSUB 1360
1357 NEXT
1358 GOSUB 1484
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
1417 sk.actor.does%(i%)=n2%
1418 i2%=i%
1419 GOSUB 1409
1420 RETURN
1421 sk.actor.face%(i%)=f%
1422 i2%=i%
1423 GOSUB 1409
1424 RETURN
1425 n%=sk.actor.shows%(i2%)
1426 sk.actor.left%(i2%)=sk.actor.left%(i2%)-1
1427 IF sk.actor.left%(i2%)<>0 THEN 1434
1428 sk.actor.step%(i2%)=sk.actor.step%(i2%)+1
1429 IF sk.actor.step%(i2%)<>sk.animation.count%(n%) THEN 1433
1430 sk.actor.step%(i2%)=0
1431 IF sk.animation.again%(n%)<>0 THEN 1433
1432 sk.actor.step%(i2%)=sk.animation.count%(n%)-1
1433 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%)+sk.actor.step%(i2%))
1434 RETURN
1435 FOR i3%=0 TO sk.planes%-1
1436 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.x%(i3%)*u!
1437 IF sk.plane.part.x!(i3%)>=0 THEN 1441
1438 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.parts.x%(i3%)
1439 sk.plane.x!(i3%)=sk.plane.x!(i3%)-1
1440 GOTO 1437
1441 IF sk.plane.part.x!(i3%)<sk.ratio.parts.x%(i3%) THEN 1445
1442 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)-sk.ratio.parts.x%(i3%)
1443 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1444 GOTO 1441
1445 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.y%(i3%)*v!
1446 IF sk.plane.part.y!(i3%)>=0 THEN 1450
1447 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.parts.y%(i3%)
1448 sk.plane.y!(i3%)=sk.plane.y!(i3%)-1
1449 GOTO 1446
1450 IF sk.plane.part.y!(i3%)<sk.ratio.parts.y%(i3%) THEN 1454
1451 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)-sk.ratio.parts.y%(i3%)
1452 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1453 GOTO 1450
1454 i2%=i3%
1455 GOSUB 1471
1456 NEXT
1457 RETURN
1458 sk.plane.x!(i3%)=sk.plane.x!(i3%)+sk.drift.x%(i3%)
1459 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)+sk.drift.step.x%(i3%)
1460 IF sk.drift.part.x%(i3%)<sk.drift.parts.x%(i3%) THEN 1463
1461 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)-sk.drift.parts.x%(i3%)
1462 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1463 sk.plane.y!(i3%)=sk.plane.y!(i3%)+sk.drift.y%(i3%)
1464 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)+sk.drift.step.y%(i3%)
1465 IF sk.drift.part.y%(i3%)<sk.drift.parts.y%(i3%) THEN 1468
1466 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)-sk.drift.parts.y%(i3%)
1467 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1468 i2%=i3%
1469 GOSUB 1471
1470 RETURN
1471 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)>=0 THEN 1474
1472 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)-sk.plane.w%(i2%)
1473 GOTO 1471
1474 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)<sk.plane.w%(i2%) THEN 1477
1475 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)+sk.plane.w%(i2%)
1476 GOTO 1474
1477 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)>=0 THEN 1480
1478 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)-sk.plane.h%(i2%)
1479 GOTO 1477
1480 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)<sk.plane.h%(i2%) THEN 1483
1481 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)+sk.plane.h%(i2%)
1482 GOTO 1480
1483 RETURN
1484 changed%=0
1485 FOR i2%=0 TO sk.cycles%-1
1486 sk.cycle.left%(i2%)=sk.cycle.left%(i2%)-1
1487 IF sk.cycle.left%(i2%)<>0 THEN 1491
1488 i3%=i2%
1489 GOSUB 1502
1490 changed%=1
1491 NEXT
1492 FOR i2%=0 TO sk.events%-1
1493 IF sk.event.done%(i2%)>=sk.event.steps%(i2%) THEN 1498
1494 IF sk.tick!<sk.event.next!(i2%) THEN 1498
1495 sk.event.done%(i2%)=sk.event.done%(i2%)+1
1496 sk.event.next!(i2%)=sk.event.next!(i2%)+sk.event.wait%(i2%)
1497 changed%=1
1498 NEXT
1499 IF changed%<>1 THEN 1501
1500 GOSUB 1510
1501 RETURN
1502 sk.cycle.left%(i3%)=sk.cycle.ticks%(i3%)
1503 sk.cycle.turn%(i3%)=((sk.cycle.turn%(i3%)+1)-sk.cycle.period%(i3%)*INT((sk.cycle.turn%(i3%)+1)/sk.cycle.period%(i3%)))
1504 sk.cycle.shift%(i3%)=sk.cycle.turn%(i3%)
1505 IF sk.cycle.turn%(i3%)<sk.cycle.count%(i3%) THEN 1507
1506 sk.cycle.shift%(i3%)=sk.cycle.period%(i3%)-sk.cycle.turn%(i3%)
1507 IF sk.cycle.back%(i3%)<>1 THEN 1509
1508 sk.cycle.shift%(i3%)=((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1509 RETURN
1510 FOR i3%=0 TO sk.cycles%-1
1511 FOR j%=0 TO sk.cycle.count%(i3%)-1
1512 sk.now%(sk.cycle.first%(i3%)+j%)=sk.cycle.first%(i3%)+((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1513 NEXT
1514 NEXT
1515 FOR i3%=0 TO sk.events%-1
1516 IF sk.event.done%(i3%)<=0 THEN 1520
1517 FOR j%=0 TO sk.event.count%(i3%)-1
1518 sk.now%(sk.event.entry%(sk.event.first%(i3%)+j%))=sk.event.colour%(i3%)+(sk.event.done%(i3%)-1)*sk.event.count%(i3%)+j%
1519 NEXT
1520 NEXT
1521 RETURN
1522 sk.pose.x!=sk.mover.x!(i%+1)
1523 sk.pose.y!=sk.mover.y!(i%+1)
1524 IF sk.actor.plane%(i%)<0 THEN 1527
1525 sk.pose.x!=sk.pose.x!-sk.plane.x!(sk.actor.plane%(i%))
1526 sk.pose.y!=sk.pose.y!-sk.plane.y!(sk.actor.plane%(i%))
1527 n%=sk.animation.first%(sk.actor.shows%(i%))+sk.actor.step%(i%)
1528 sk.pose.frame%=sk.step.frame%(n%)
1529 sk.pose.flip%=(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))-2*INT(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))/2))
1530 sk.pose.flip%=sk.pose.flip%+((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))-2*INT((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))/2))*2
1531 RETURN
1532 i%=i2%
1533 GOSUB 1522
1534 sk.hit.wide%=sk.hit.w%(sk.pose.frame%)
1535 sk.hit.high%=sk.hit.h%(sk.pose.frame%)
1536 sk.hit.left!=sk.pose.x!+sk.hit.x%(sk.pose.frame%)
1537 IF (sk.pose.flip%-2*INT(sk.pose.flip%/2))<>1 THEN 1539
1538 sk.hit.left!=sk.pose.x!-sk.hit.x%(sk.pose.frame%)-sk.hit.wide%+1
1539 sk.hit.top!=sk.pose.y!+sk.hit.y%(sk.pose.frame%)
1540 IF INT(sk.pose.flip%/2)<>1 THEN 1542
1541 sk.hit.top!=sk.pose.y!-sk.hit.y%(sk.pose.frame%)-sk.hit.high%+1
1542 RETURN
1543 sk.touching%=0
1544 i2%=i3%
1545 GOSUB 1532
1546 x!=sk.hit.left!
1547 y!=sk.hit.top!
1548 w%=sk.hit.wide%
1549 h%=sk.hit.high%
1550 i2%=j%
1551 GOSUB 1532
1552 IF w%=0 THEN 1554
1553 IF sk.hit.wide%<>0 THEN 1555
1554 RETURN
1555 IF x!>=sk.hit.left!+sk.hit.wide% THEN 1560
1556 IF sk.hit.left!>=x!+w% THEN 1560
1557 IF y!>=sk.hit.top!+sk.hit.high% THEN 1560
1558 IF sk.hit.top!>=y!+h% THEN 1560
1559 sk.touching%=1
1560 RETURN
1561 sk.flags%=0
1562 IF sk.flag.first%(p%)>=0 THEN 1564
1563 RETURN
1564 IF sk.wrap.x%(p%)<>1 THEN 1569
1565 IF x!>=0 THEN 1568
1566 x!=x!+sk.plane.w%(p%)
1567 GOTO 1565
1568 x!=(x!-sk.plane.w%(p%)*INT(x!/sk.plane.w%(p%)))
1569 IF sk.wrap.y%(p%)<>1 THEN 1574
1570 IF y!>=0 THEN 1573
1571 y!=y!+sk.plane.h%(p%)
1572 GOTO 1570
1573 y!=(y!-sk.plane.h%(p%)*INT(y!/sk.plane.h%(p%)))
1574 IF x!<0 THEN 1578
1575 IF y!<0 THEN 1578
1576 IF x!>=sk.plane.w%(p%) THEN 1578
1577 IF y!<sk.plane.h%(p%) THEN 1579
1578 RETURN
1579 p2%=p%
1580 n%=INT(y!/sk.flag.h%(p%))*sk.flag.columns%(p%)+INT(x!/sk.flag.w%(p%))
1581 GOSUB 1650
1582 RETURN
1583 PRINT#3,sk.tick!
1584 PRINT#3,sk.mover.x!(0)
1585 PRINT#3,sk.mover.y!(0)
1586 FOR i4%=0 TO sk.planes%-1
1587 PRINT#3,sk.plane.x!(i4%)
1588 PRINT#3,sk.plane.y!(i4%)
1589 NEXT
1590 FOR i4%=0 TO sk.actors%-1
1591 PRINT#3,sk.mover.x!(i4%+1)
1592 PRINT#3,sk.mover.y!(i4%+1)
1593 n2%=sk.animation.first%(sk.actor.shows%(i4%))+sk.actor.step%(i4%)
1594 PRINT#3,sk.step.frame%(n2%)
1595 PRINT#3,sk.actor.flip%(i4%)
1596 NEXT
1597 FOR i4%=0 TO sk.actors%-1
1598 i2%=i4%
1599 GOSUB 1532
1600 PRINT#3,sk.hit.left!
1601 PRINT#3,sk.hit.top!
1602 PRINT#3,sk.hit.wide%
1603 PRINT#3,sk.hit.high%
1604 IF i4%<=0 THEN 1609
1605 i3%=i4%-1
1606 j%=i4%
1607 GOSUB 1543
1608 PRINT#3,sk.touching%
1609 IF sk.actor.plane%(i4%)<0 THEN 1615
1610 p%=sk.actor.plane%(i4%)
1611 x!=sk.mover.x!(i4%+1)
1612 y!=sk.mover.y!(i4%+1)+1
1613 GOSUB 1561
1614 PRINT#3,sk.flags%
1615 NEXT
1616 FOR i4%=0 TO sk.covers%-1
1617 PRINT#3,sk.cover.done%(i4%)
1618 NEXT
1619 FOR i4%=0 TO sk.moving%-1
1620 n2%=sk.now%(sk.moving.entry%(i4%))
1621 PRINT#3,sk.red%(n2%)
1622 PRINT#3,sk.green%(n2%)
1623 PRINT#3,sk.blue%(n2%)
1624 NEXT
1625 RETURN
1626 FOR i2%=0 TO sk.entries%-1
1627 sk.now%(i2%)=i2%
1628 NEXT
1629 RETURN
1630 sk.held$=INKEY$
1631 k%=-(sk.held$=CHR$(0)+"K")-2*(sk.held$=CHR$(0)+"M")-4*(sk.held$=CHR$(0)+"H")
1632 k%=k%-8*(sk.held$=CHR$(0)+"P")-16*(sk.held$=" ")
1633 n%=k%
1634 GOSUB 1636
1635 RETURN
1636 sk.steer.left%=(n%-2*INT(n%/2))
1637 sk.steer.right%=((INT(n%/2))-2*INT((INT(n%/2))/2))
1638 sk.steer.up%=((INT(n%/4))-2*INT((INT(n%/4))/2))
1639 sk.steer.down%=((INT(n%/8))-2*INT((INT(n%/8))/2))
1640 sk.steer.act%=((INT(n%/16))-2*INT((INT(n%/16))/2))
1641 RETURN
1642 u2!=x!-sk.mover.x!(0)
1643 v2!=y!-sk.mover.y!(0)
1644 sk.mover.x!(0)=x!
1645 sk.mover.y!(0)=y!
1646 u!=u2!
1647 v!=v2!
1648 GOSUB 1435
1649 RETURN
1650 sk.flags%=sk.flag.cell%(sk.flag.first%(p2%)+n%)
1651 RETURN
1652 FOR i3%=0 TO sk.actors%-1
1653 i2%=i3%
1654 GOSUB 1425
1655 m2%=i3%+1
1656 GOSUB 1365
1657 NEXT
1658 RETURN
1659 OPEN "said.txt" FOR OUTPUT AS 3
1660 GOSUB 1670
1661 IF s!<0 THEN 1668
1662 IF sk.tick!>=s! THEN 1665
1663 GOSUB 1341
1664 GOTO 1662
1665 GOSUB 1583
1666 s!=-1:IF NOT EOF(2) THEN INPUT#2,s!
1667 GOTO 1661
1668 CLOSE 3
1669 RETURN
1670 FOR i%=0 TO 255
1671 PRINT#3,sk.red%(i%)
1672 NEXT
1673 FOR i%=0 TO 255
1674 PRINT#3,sk.green%(i%)
1675 NEXT
1676 FOR i%=0 TO 255
1677 PRINT#3,sk.blue%(i%)
1678 NEXT
1679 FOR i%=0 TO 0
1680 PRINT#3,sk.plane.columns%(i%)
1681 NEXT
1682 FOR i%=0 TO 0
1683 PRINT#3,sk.plane.rows%(i%)
1684 NEXT
1685 FOR i%=0 TO 0
1686 PRINT#3,sk.tile.w%(i%)
1687 NEXT
1688 FOR i%=0 TO 0
1689 PRINT#3,sk.tile.h%(i%)
1690 NEXT
1691 FOR i%=0 TO 0
1692 PRINT#3,sk.last.w%(i%)
1693 NEXT
1694 FOR i%=0 TO 0
1695 PRINT#3,sk.last.h%(i%)
1696 NEXT
1697 FOR i%=0 TO 0
1698 PRINT#3,sk.plane.w%(i%)
1699 NEXT
1700 FOR i%=0 TO 0
1701 PRINT#3,sk.plane.h%(i%)
1702 NEXT
1703 FOR i%=0 TO 0
1704 PRINT#3,sk.map.first%(i%)
1705 NEXT
1706 FOR i%=0 TO 0
1707 PRINT#3,sk.wrap.x%(i%)
1708 NEXT
1709 FOR i%=0 TO 0
1710 PRINT#3,sk.ratio.x%(i%)
1711 NEXT
1712 FOR i%=0 TO 0
1713 PRINT#3,sk.ratio.parts.x%(i%)
1714 NEXT
1715 FOR i%=0 TO 0
1716 PRINT#3,sk.drift.x%(i%)
1717 NEXT
1718 FOR i%=0 TO 0
1719 PRINT#3,sk.drift.step.x%(i%)
1720 NEXT
1721 FOR i%=0 TO 0
1722 PRINT#3,sk.drift.parts.x%(i%)
1723 NEXT
1724 FOR i%=0 TO 0
1725 PRINT#3,sk.plane.start.x!(i%)
1726 NEXT
1727 FOR i%=0 TO 0
1728 PRINT#3,sk.plane.start.part.x%(i%)
1729 NEXT
1730 FOR i%=0 TO 0
1731 PRINT#3,sk.start.base.x!(i%)
1732 NEXT
1733 FOR i%=0 TO 0
1734 PRINT#3,sk.wrap.y%(i%)
1735 NEXT
1736 FOR i%=0 TO 0
1737 PRINT#3,sk.ratio.y%(i%)
1738 NEXT
1739 FOR i%=0 TO 0
1740 PRINT#3,sk.ratio.parts.y%(i%)
1741 NEXT
1742 FOR i%=0 TO 0
1743 PRINT#3,sk.drift.y%(i%)
1744 NEXT
1745 FOR i%=0 TO 0
1746 PRINT#3,sk.drift.step.y%(i%)
1747 NEXT
1748 FOR i%=0 TO 0
1749 PRINT#3,sk.drift.parts.y%(i%)
1750 NEXT
1751 FOR i%=0 TO 0
1752 PRINT#3,sk.plane.start.y!(i%)
1753 NEXT
1754 FOR i%=0 TO 0
1755 PRINT#3,sk.plane.start.part.y%(i%)
1756 NEXT
1757 FOR i%=0 TO 0
1758 PRINT#3,sk.start.base.y!(i%)
1759 NEXT
1760 FOR i%=0 TO 0
1761 PRINT#3,sk.map.cell%(i%)
1762 NEXT
1763 FOR i%=0 TO 0
1764 PRINT#3,sk.piece.w%(i%)
1765 NEXT
1766 FOR i%=0 TO 0
1767 PRINT#3,sk.piece.h%(i%)
1768 NEXT
1769 FOR i%=0 TO 0
1770 PRINT#3,sk.order%(i%)
1771 NEXT
1772 FOR i%=0 TO 0
1773 PRINT#3,sk.flag.first%(i%)
1774 NEXT
1775 FOR i%=0 TO 0
1776 PRINT#3,sk.flag.columns%(i%)
1777 NEXT
1778 FOR i%=0 TO 0
1779 PRINT#3,sk.flag.w%(i%)
1780 NEXT
1781 FOR i%=0 TO 0
1782 PRINT#3,sk.flag.h%(i%)
1783 NEXT
1784 FOR i%=0 TO 0
1785 PRINT#3,sk.start.x!(i%)
1786 NEXT
1787 FOR i%=0 TO 0
1788 PRINT#3,sk.start.y!(i%)
1789 NEXT
1790 FOR i%=0 TO 0
1791 PRINT#3,sk.path.first%(i%)
1792 NEXT
1793 FOR i%=0 TO 0
1794 PRINT#3,sk.path.count%(i%)
1795 NEXT
1796 FOR i%=0 TO 0
1797 PRINT#3,sk.path.repeat%(i%)
1798 NEXT
1799 RETURN
1800 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1801 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1802 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1803 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1804 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1805 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1806 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1807 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1808 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1809 DATA 1
1810 DATA 1
1811 DATA 8
1812 DATA 8
1813 DATA 8
1814 DATA 8
1815 DATA 8
1816 DATA 8
1817 DATA 0
1818 DATA 1
1819 DATA 1
1820 DATA 1
1821 DATA 0
1822 DATA 0
1823 DATA 1
1824 DATA 0
1825 DATA 0
1826 DATA 0
1827 DATA 0
1828 DATA 1
1829 DATA 1
1830 DATA 0
1831 DATA 0
1832 DATA 1
1833 DATA 0
1834 DATA 0
1835 DATA 0
1836 DATA 0
1837 DATA 8
1838 DATA 8
1839 DATA 0
1840 DATA -1
1841 DATA 0
1842 DATA 1
1843 DATA 1
1844 DATA 0
1845 DATA 0
1846 DATA 0
1847 DATA 0
1848 DATA 0
1849 END
