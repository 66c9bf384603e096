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
1127 sk.tick!=0
1128 sk.page%=0
1129 sk.view.w%=16
1130 sk.view.h%=8
1131 sk.transparent%=0
1132 sk.backdrop%=3
1133 sk.clear.first%=1
1134 sk.entries%=256
1135 sk.moving%=0
1136 sk.pieces%=1
1137 sk.planes%=1
1138 sk.actors%=0
1139 sk.movers%=1
1140 sk.cycles%=0
1141 sk.events%=0
1142 sk.covers%=0
1143 sk.order.count%=1
1144 sk.ticks.per.update%=1
1145 RESTORE 1606
1146 FOR i%=0 TO 255
1147 READ sk.red%(i%)
1148 NEXT
1149 FOR i%=0 TO 255
1150 READ sk.green%(i%)
1151 NEXT
1152 FOR i%=0 TO 255
1153 READ sk.blue%(i%)
1154 NEXT
1155 FOR i%=0 TO 0
1156 READ sk.plane.columns%(i%)
1157 NEXT
1158 FOR i%=0 TO 0
1159 READ sk.plane.rows%(i%)
1160 NEXT
1161 FOR i%=0 TO 0
1162 READ sk.tile.w%(i%)
1163 NEXT
1164 FOR i%=0 TO 0
1165 READ sk.tile.h%(i%)
1166 NEXT
1167 FOR i%=0 TO 0
1168 READ sk.last.w%(i%)
1169 NEXT
1170 FOR i%=0 TO 0
1171 READ sk.last.h%(i%)
1172 NEXT
1173 FOR i%=0 TO 0
1174 READ sk.plane.w%(i%)
1175 NEXT
1176 FOR i%=0 TO 0
1177 READ sk.plane.h%(i%)
1178 NEXT
1179 FOR i%=0 TO 0
1180 READ sk.map.first%(i%)
1181 NEXT
1182 FOR i%=0 TO 0
1183 READ sk.wrap.x%(i%)
1184 NEXT
1185 FOR i%=0 TO 0
1186 READ sk.ratio.x%(i%)
1187 NEXT
1188 FOR i%=0 TO 0
1189 READ sk.ratio.parts.x%(i%)
1190 NEXT
1191 FOR i%=0 TO 0
1192 READ sk.drift.x%(i%)
1193 NEXT
1194 FOR i%=0 TO 0
1195 READ sk.drift.step.x%(i%)
1196 NEXT
1197 FOR i%=0 TO 0
1198 READ sk.drift.parts.x%(i%)
1199 NEXT
1200 FOR i%=0 TO 0
1201 READ sk.plane.start.x!(i%)
1202 NEXT
1203 FOR i%=0 TO 0
1204 READ sk.plane.start.part.x%(i%)
1205 NEXT
1206 FOR i%=0 TO 0
1207 READ sk.start.base.x!(i%)
1208 NEXT
1209 FOR i%=0 TO 0
1210 READ sk.wrap.y%(i%)
1211 NEXT
1212 FOR i%=0 TO 0
1213 READ sk.ratio.y%(i%)
1214 NEXT
1215 FOR i%=0 TO 0
1216 READ sk.ratio.parts.y%(i%)
1217 NEXT
1218 FOR i%=0 TO 0
1219 READ sk.drift.y%(i%)
1220 NEXT
1221 FOR i%=0 TO 0
1222 READ sk.drift.step.y%(i%)
1223 NEXT
1224 FOR i%=0 TO 0
1225 READ sk.drift.parts.y%(i%)
1226 NEXT
1227 FOR i%=0 TO 0
1228 READ sk.plane.start.y!(i%)
1229 NEXT
1230 FOR i%=0 TO 0
1231 READ sk.plane.start.part.y%(i%)
1232 NEXT
1233 FOR i%=0 TO 0
1234 READ sk.start.base.y!(i%)
1235 NEXT
1236 FOR i%=0 TO 0
1237 READ sk.map.cell%(i%)
1238 NEXT
1239 FOR i%=0 TO 0
1240 READ sk.piece.w%(i%)
1241 NEXT
1242 FOR i%=0 TO 0
1243 READ sk.piece.h%(i%)
1244 NEXT
1245 FOR i%=0 TO 0
1246 READ sk.order%(i%)
1247 NEXT
1248 FOR i%=0 TO 0
1249 READ sk.flag.first%(i%)
1250 NEXT
1251 FOR i%=0 TO 0
1252 READ sk.flag.columns%(i%)
1253 NEXT
1254 FOR i%=0 TO 0
1255 READ sk.flag.w%(i%)
1256 NEXT
1257 FOR i%=0 TO 0
1258 READ sk.flag.h%(i%)
1259 NEXT
1260 FOR i%=0 TO 0
1261 READ sk.start.x!(i%)
1262 NEXT
1263 FOR i%=0 TO 0
1264 READ sk.start.y!(i%)
1265 NEXT
1266 FOR i%=0 TO 0
1267 READ sk.path.first%(i%)
1268 NEXT
1269 FOR i%=0 TO 0
1270 READ sk.path.count%(i%)
1271 NEXT
1272 FOR i%=0 TO 0
1273 READ sk.path.repeat%(i%)
1274 NEXT
1275 sk.pages%=2
1276 GOSUB 1573
1277 RETURN
1278 GOSUB 1280
1279 RETURN
1280 sk.tick!=0
1281 FOR i%=0 TO sk.movers%-1
1282 sk.mover.x!(i%)=sk.start.x!(i%)
1283 sk.mover.y!(i%)=sk.start.y!(i%)
1284 sk.mover.part.x%(i%)=0
1285 sk.mover.part.y%(i%)=0
1286 sk.mover.used%(i%)=0
1287 sk.mover.segment%(i%)=0
1288 IF sk.path.count%(i%)<>0 THEN 1290
1289 sk.mover.segment%(i%)=-1
1290 NEXT
1291 FOR i%=0 TO sk.planes%-1
1292 sk.plane.x!(i%)=sk.plane.start.x!(i%)
1293 sk.plane.y!(i%)=sk.plane.start.y!(i%)
1294 sk.plane.part.x!(i%)=sk.plane.start.part.x%(i%)
1295 sk.plane.part.y!(i%)=sk.plane.start.part.y%(i%)
1296 sk.drift.part.x%(i%)=0
1297 sk.drift.part.y%(i%)=0
1298 sk.wrap.base.x!(i%)=sk.start.base.x!(i%)
1299 sk.wrap.base.y!(i%)=sk.start.base.y!(i%)
1300 i2%=i%
1301 GOSUB 1461
1302 NEXT
1303 FOR i%=0 TO sk.actors%-1
1304 sk.actor.face%(i%)=sk.start.face%(i%)
1305 sk.actor.does%(i%)=sk.start.does%(i%)
1306 sk.actor.shows%(i%)=-1
1307 i2%=i%
1308 GOSUB 1399
1309 NEXT
1310 FOR i%=1 TO sk.movers%-1
1311 m%=i%
1312 GOSUB 1389
1313 NEXT
1314 FOR i%=0 TO sk.cycles%-1
1315 sk.cycle.shift%(i%)=0
1316 sk.cycle.turn%(i%)=0
1317 sk.cycle.left%(i%)=sk.cycle.ticks%(i%)
1318 NEXT
1319 FOR i%=0 TO sk.events%-1
1320 sk.event.done%(i%)=0
1321 sk.event.next!(i%)=sk.event.tick!(i%)
1322 NEXT
1323 FOR i%=0 TO sk.covers%-1
1324 sk.cover.used%(i%)=0
1325 sk.cover.done%(i%)=0
1326 i2%=i%
1327 GOSUB 1350
1328 NEXT
1329 GOSUB 1500
1330 RETURN
1331 sk.tick!=sk.tick!+1
1332 x!=sk.mover.x!(0)
1333 y!=sk.mover.y!(0)
1334 m2%=0
1335 GOSUB 1355
1336 u!=sk.mover.x!(0)-x!
1337 v!=sk.mover.y!(0)-y!
1338 GOSUB 1425
1339 FOR i%=0 TO sk.planes%-1
1340 i3%=i%
1341 GOSUB 1448
1342 NEXT
1343 GOSUB 1599
1344 FOR i%=0 TO sk.covers%-1
1345 i2%=i%
1346 GOSUB 1350
1347 NEXT
1348 GOSUB 1474
1349 RETURN
1350 IF sk.tick!<sk.cover.tick%(i2%) THEN 1354
1351 IF sk.cover.used%(i2%)>=sk.cover.ticks%(i2%) THEN 1354
1352 sk.cover.used%(i2%)=sk.cover.used%(i2%)+1
1353 sk.cover.done%(i2%)=sk.cover.count%(sk.cover.begin%(i2%)+sk.cover.used%(i2%))
1354 RETURN
1355 s!=sk.mover.segment%(m2%)
1356 IF s!>=0 THEN 1358
1357 RETURN
1358 s!=sk.path.first%(m2%)+s!
1359 sk.mover.x!(m2%)=sk.mover.x!(m2%)+sk.segment.x%(s!)
1360 sk.mover.part.x%(m2%)=sk.mover.part.x%(m2%)+sk.segment.part.x%(s!)
1361 IF sk.mover.part.x%(m2%)<sk.segment.parts.x%(s!) THEN 1364
1362 sk.mover.part.x%(m2%)=sk.mover.part.x%(m2%)-sk.segment.parts.x%(s!)
1363 sk.mover.x!(m2%)=sk.mover.x!(m2%)+1
1364 sk.mover.y!(m2%)=sk.mover.y!(m2%)+sk.segment.y%(s!)
1365 sk.mover.part.y%(m2%)=sk.mover.part.y%(m2%)+sk.segment.part.y%(s!)
1366 IF sk.mover.part.y%(m2%)<sk.segment.parts.y%(s!) THEN 1369
1367 sk.mover.part.y%(m2%)=sk.mover.part.y%(m2%)-sk.segment.parts.y%(s!)
1368 sk.mover.y!(m2%)=sk.mover.y!(m2%)+1
1369 sk.mover.used%(m2%)=sk.mover.used%(m2%)+1
1370 IF sk.mover.used%(m2%)<>sk.segment.ticks%(s!) THEN 1373
1371 m3%=m2%
1372 GOSUB 1374
1373 RETURN
1374 sk.mover.used%(m3%)=0
1375 sk.mover.part.x%(m3%)=0
1376 sk.mover.part.y%(m3%)=0
1377 sk.mover.segment%(m3%)=sk.mover.segment%(m3%)+1
1378 IF sk.mover.segment%(m3%)<>sk.path.count%(m3%) THEN 1385
1379 sk.mover.segment%(m3%)=0
1380 IF sk.path.repeat%(m3%)<>0 THEN 1382
1381 sk.mover.segment%(m3%)=-1
1382 IF sk.path.repeat%(m3%)<>1 THEN 1385
1383 sk.mover.x!(m3%)=sk.start.x!(m3%)
1384 sk.mover.y!(m3%)=sk.start.y!(m3%)
1385 IF m3%<=0 THEN 1388
1386 m%=m3%
1387 GOSUB 1389
1388 RETURN
1389 IF sk.mover.segment%(m%)>=0 THEN 1391
1390 RETURN
1391 s2!=sk.path.first%(m%)+sk.mover.segment%(m%)
1392 IF sk.segment.does%(s2!)<0 THEN 1394
1393 sk.actor.does%(m%-1)=sk.segment.does%(s2!)
1394 IF sk.segment.face%(s2!)<0 THEN 1396
1395 sk.actor.face%(m%-1)=sk.segment.face%(s2!)
1396 i2%=m%-1
1397 GOSUB 1399
1398 RETURN
1399 n%=sk.look%(sk.actor.look%(i2%)+4*sk.actor.does%(i2%)+sk.actor.face%(i2%))
1400 sk.actor.flip%(i2%)=(n%-4*INT(n%/4))
1401 n%=INT(n%/4)
1402 IF n%=sk.actor.shows%(i2%) THEN 1406
1403 sk.actor.shows%(i2%)=n%
1404 sk.actor.step%(i2%)=0
1405 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%))
1406 RETURN
1407 sk.actor.does%(i%)=n2%
1408 i2%=i%
1409 GOSUB 1399
1410 RETURN
1411 sk.actor.face%(i%)=f%
1412 i2%=i%
1413 GOSUB 1399
1414 RETURN
1415 n%=sk.actor.shows%(i2%)
1416 sk.actor.left%(i2%)=sk.actor.left%(i2%)-1
1417 IF sk.actor.left%(i2%)<>0 THEN 1424
1418 sk.actor.step%(i2%)=sk.actor.step%(i2%)+1
1419 IF sk.actor.step%(i2%)<>sk.animation.count%(n%) THEN 1423
1420 sk.actor.step%(i2%)=0
1421 IF sk.animation.again%(n%)<>0 THEN 1423
1422 sk.actor.step%(i2%)=sk.animation.count%(n%)-1
1423 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%)+sk.actor.step%(i2%))
1424 RETURN
1425 FOR i3%=0 TO sk.planes%-1
1426 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.x%(i3%)*u!
1427 IF sk.plane.part.x!(i3%)>=0 THEN 1431
1428 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.parts.x%(i3%)
1429 sk.plane.x!(i3%)=sk.plane.x!(i3%)-1
1430 GOTO 1427
1431 IF sk.plane.part.x!(i3%)<sk.ratio.parts.x%(i3%) THEN 1435
1432 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)-sk.ratio.parts.x%(i3%)
1433 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1434 GOTO 1431
1435 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.y%(i3%)*v!
1436 IF sk.plane.part.y!(i3%)>=0 THEN 1440
1437 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.parts.y%(i3%)
1438 sk.plane.y!(i3%)=sk.plane.y!(i3%)-1
1439 GOTO 1436
1440 IF sk.plane.part.y!(i3%)<sk.ratio.parts.y%(i3%) THEN 1444
1441 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)-sk.ratio.parts.y%(i3%)
1442 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1443 GOTO 1440
1444 i2%=i3%
1445 GOSUB 1461
1446 NEXT
1447 RETURN
1448 sk.plane.x!(i3%)=sk.plane.x!(i3%)+sk.drift.x%(i3%)
1449 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)+sk.drift.step.x%(i3%)
1450 IF sk.drift.part.x%(i3%)<sk.drift.parts.x%(i3%) THEN 1453
1451 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)-sk.drift.parts.x%(i3%)
1452 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1453 sk.plane.y!(i3%)=sk.plane.y!(i3%)+sk.drift.y%(i3%)
1454 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)+sk.drift.step.y%(i3%)
1455 IF sk.drift.part.y%(i3%)<sk.drift.parts.y%(i3%) THEN 1458
1456 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)-sk.drift.parts.y%(i3%)
1457 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1458 i2%=i3%
1459 GOSUB 1461
1460 RETURN
1461 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)>=0 THEN 1464
1462 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)-sk.plane.w%(i2%)
1463 GOTO 1461
1464 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)<sk.plane.w%(i2%) THEN 1467
1465 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)+sk.plane.w%(i2%)
1466 GOTO 1464
1467 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)>=0 THEN 1470
1468 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)-sk.plane.h%(i2%)
1469 GOTO 1467
1470 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)<sk.plane.h%(i2%) THEN 1473
1471 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)+sk.plane.h%(i2%)
1472 GOTO 1470
1473 RETURN
1474 changed%=0
1475 FOR i2%=0 TO sk.cycles%-1
1476 sk.cycle.left%(i2%)=sk.cycle.left%(i2%)-1
1477 IF sk.cycle.left%(i2%)<>0 THEN 1481
1478 i3%=i2%
1479 GOSUB 1492
1480 changed%=1
1481 NEXT
1482 FOR i2%=0 TO sk.events%-1
1483 IF sk.event.done%(i2%)>=sk.event.steps%(i2%) THEN 1488
1484 IF sk.tick!<sk.event.next!(i2%) THEN 1488
1485 sk.event.done%(i2%)=sk.event.done%(i2%)+1
1486 sk.event.next!(i2%)=sk.event.next!(i2%)+sk.event.wait%(i2%)
1487 changed%=1
1488 NEXT
1489 IF changed%<>1 THEN 1491
1490 GOSUB 1500
1491 RETURN
1492 sk.cycle.left%(i3%)=sk.cycle.ticks%(i3%)
1493 sk.cycle.turn%(i3%)=((sk.cycle.turn%(i3%)+1)-sk.cycle.period%(i3%)*INT((sk.cycle.turn%(i3%)+1)/sk.cycle.period%(i3%)))
1494 sk.cycle.shift%(i3%)=sk.cycle.turn%(i3%)
1495 IF sk.cycle.turn%(i3%)<sk.cycle.count%(i3%) THEN 1497
1496 sk.cycle.shift%(i3%)=sk.cycle.period%(i3%)-sk.cycle.turn%(i3%)
1497 IF sk.cycle.back%(i3%)<>1 THEN 1499
1498 sk.cycle.shift%(i3%)=((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1499 RETURN
1500 FOR i3%=0 TO sk.cycles%-1
1501 FOR j%=0 TO sk.cycle.count%(i3%)-1
1502 sk.now%(sk.cycle.first%(i3%)+j%)=sk.cycle.first%(i3%)+((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1503 NEXT
1504 NEXT
1505 FOR i3%=0 TO sk.events%-1
1506 IF sk.event.done%(i3%)<=0 THEN 1510
1507 FOR j%=0 TO sk.event.count%(i3%)-1
1508 sk.now%(sk.event.entry%(sk.event.first%(i3%)+j%))=sk.event.colour%(i3%)+(sk.event.done%(i3%)-1)*sk.event.count%(i3%)+j%
1509 NEXT
1510 NEXT
1511 RETURN
1512 sk.pose.x!=sk.mover.x!(i%+1)
1513 sk.pose.y!=sk.mover.y!(i%+1)
1514 IF sk.actor.plane%(i%)<0 THEN 1517
1515 sk.pose.x!=sk.pose.x!-sk.plane.x!(sk.actor.plane%(i%))
1516 sk.pose.y!=sk.pose.y!-sk.plane.y!(sk.actor.plane%(i%))
1517 n%=sk.animation.first%(sk.actor.shows%(i%))+sk.actor.step%(i%)
1518 sk.pose.frame%=sk.step.frame%(n%)
1519 sk.pose.flip%=(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))-2*INT(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))/2))
1520 sk.pose.flip%=sk.pose.flip%+((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))-2*INT((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))/2))*2
1521 RETURN
1522 i%=i2%
1523 GOSUB 1512
1524 sk.hit.wide%=sk.hit.w%(sk.pose.frame%)
1525 sk.hit.high%=sk.hit.h%(sk.pose.frame%)
1526 sk.hit.left!=sk.pose.x!+sk.hit.x%(sk.pose.frame%)
1527 IF (sk.pose.flip%-2*INT(sk.pose.flip%/2))<>1 THEN 1529
1528 sk.hit.left!=sk.pose.x!-sk.hit.x%(sk.pose.frame%)-sk.hit.wide%+1
1529 sk.hit.top!=sk.pose.y!+sk.hit.y%(sk.pose.frame%)
1530 IF INT(sk.pose.flip%/2)<>1 THEN 1532
1531 sk.hit.top!=sk.pose.y!-sk.hit.y%(sk.pose.frame%)-sk.hit.high%+1
1532 RETURN
1533 sk.touching%=0
1534 i2%=i3%
1535 GOSUB 1522
1536 x!=sk.hit.left!
1537 y!=sk.hit.top!
1538 w%=sk.hit.wide%
1539 h%=sk.hit.high%
1540 i2%=j%
1541 GOSUB 1522
1542 IF w%=0 THEN 1544
1543 IF sk.hit.wide%<>0 THEN 1545
1544 RETURN
1545 IF x!>=sk.hit.left!+sk.hit.wide% THEN 1550
1546 IF sk.hit.left!>=x!+w% THEN 1550
1547 IF y!>=sk.hit.top!+sk.hit.high% THEN 1550
1548 IF sk.hit.top!>=y!+h% THEN 1550
1549 sk.touching%=1
1550 RETURN
1551 sk.flags%=0
1552 IF sk.flag.first%(p%)>=0 THEN 1554
1553 RETURN
1554 IF sk.wrap.x%(p%)<>1 THEN 1559
1555 IF x!>=0 THEN 1558
1556 x!=x!+sk.plane.w%(p%)
1557 GOTO 1555
1558 x!=(x!-sk.plane.w%(p%)*INT(x!/sk.plane.w%(p%)))
1559 IF sk.wrap.y%(p%)<>1 THEN 1564
1560 IF y!>=0 THEN 1563
1561 y!=y!+sk.plane.h%(p%)
1562 GOTO 1560
1563 y!=(y!-sk.plane.h%(p%)*INT(y!/sk.plane.h%(p%)))
1564 IF x!<0 THEN 1568
1565 IF y!<0 THEN 1568
1566 IF x!>=sk.plane.w%(p%) THEN 1568
1567 IF y!<sk.plane.h%(p%) THEN 1569
1568 RETURN
1569 p2%=p%
1570 n%=INT(y!/sk.flag.h%(p%))*sk.flag.columns%(p%)+INT(x!/sk.flag.w%(p%))
1571 GOSUB 1597
1572 RETURN
1573 FOR i2%=0 TO sk.entries%-1
1574 sk.now%(i2%)=i2%
1575 NEXT
1576 RETURN
1577 sk.held$=INKEY$
1578 k%=-(sk.held$=CHR$(0)+"K")-2*(sk.held$=CHR$(0)+"M")-4*(sk.held$=CHR$(0)+"H")
1579 k%=k%-8*(sk.held$=CHR$(0)+"P")-16*(sk.held$=" ")
1580 n%=k%
1581 GOSUB 1583
1582 RETURN
1583 sk.steer.left%=(n%-2*INT(n%/2))
1584 sk.steer.right%=((INT(n%/2))-2*INT((INT(n%/2))/2))
1585 sk.steer.up%=((INT(n%/4))-2*INT((INT(n%/4))/2))
1586 sk.steer.down%=((INT(n%/8))-2*INT((INT(n%/8))/2))
1587 sk.steer.act%=((INT(n%/16))-2*INT((INT(n%/16))/2))
1588 RETURN
1589 u2!=x!-sk.mover.x!(0)
1590 v2!=y!-sk.mover.y!(0)
1591 sk.mover.x!(0)=x!
1592 sk.mover.y!(0)=y!
1593 u!=u2!
1594 v!=v2!
1595 GOSUB 1425
1596 RETURN
1597 sk.flags%=sk.flag.cell%(sk.flag.first%(p2%)+n%)
1598 RETURN
1599 FOR i3%=0 TO sk.actors%-1
1600 i2%=i3%
1601 GOSUB 1415
1602 m2%=i3%+1
1603 GOSUB 1355
1604 NEXT
1605 RETURN
1606 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1607 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1608 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1609 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1610 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1611 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1612 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1613 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1614 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1615 DATA 1
1616 DATA 1
1617 DATA 8
1618 DATA 8
1619 DATA 8
1620 DATA 8
1621 DATA 8
1622 DATA 8
1623 DATA 0
1624 DATA 1
1625 DATA 1
1626 DATA 1
1627 DATA 0
1628 DATA 0
1629 DATA 1
1630 DATA 0
1631 DATA 0
1632 DATA 0
1633 DATA 0
1634 DATA 1
1635 DATA 1
1636 DATA 0
1637 DATA 0
1638 DATA 1
1639 DATA 0
1640 DATA 0
1641 DATA 0
1642 DATA 0
1643 DATA 8
1644 DATA 8
1645 DATA 0
1646 DATA -1
1647 DATA 0
1648 DATA 1
1649 DATA 1
1650 DATA 0
1651 DATA 0
1652 DATA 0
1653 DATA 0
1654 DATA 0
1655 END
