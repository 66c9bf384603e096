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
1145 RESTORE 1608
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
1276 GOSUB 1575
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
1301 GOSUB 1463
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
1329 GOSUB 1502
1330 RETURN
1331 sk.tick!=sk.tick!+1
1332 x!=sk.mover.x!(0)
1333 y!=sk.mover.y!(0)
1334 m2%=0
1335 GOSUB 1355
1336 u!=sk.mover.x!(0)-x!
1337 v!=sk.mover.y!(0)-y!
1338 GOSUB 1427
1339 FOR i%=0 TO sk.planes%-1
1340 i3%=i%
1341 GOSUB 1450
1342 NEXT
1343 GOSUB 1601
1344 FOR i%=0 TO sk.covers%-1
1345 i2%=i%
1346 GOSUB 1350
1347 NEXT
1348 GOSUB 1476
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
1407 sk.mover.segment%(i%+1)=-1
1408 RETURN
1409 sk.actor.does%(i%)=n2%
1410 i2%=i%
1411 GOSUB 1399
1412 RETURN
1413 sk.actor.face%(i%)=f%
1414 i2%=i%
1415 GOSUB 1399
1416 RETURN
1417 n%=sk.actor.shows%(i2%)
1418 sk.actor.left%(i2%)=sk.actor.left%(i2%)-1
1419 IF sk.actor.left%(i2%)<>0 THEN 1426
1420 sk.actor.step%(i2%)=sk.actor.step%(i2%)+1
1421 IF sk.actor.step%(i2%)<>sk.animation.count%(n%) THEN 1425
1422 sk.actor.step%(i2%)=0
1423 IF sk.animation.again%(n%)<>0 THEN 1425
1424 sk.actor.step%(i2%)=sk.animation.count%(n%)-1
1425 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%)+sk.actor.step%(i2%))
1426 RETURN
1427 FOR i3%=0 TO sk.planes%-1
1428 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.x%(i3%)*u!
1429 IF sk.plane.part.x!(i3%)>=0 THEN 1433
1430 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.parts.x%(i3%)
1431 sk.plane.x!(i3%)=sk.plane.x!(i3%)-1
1432 GOTO 1429
1433 IF sk.plane.part.x!(i3%)<sk.ratio.parts.x%(i3%) THEN 1437
1434 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)-sk.ratio.parts.x%(i3%)
1435 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1436 GOTO 1433
1437 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.y%(i3%)*v!
1438 IF sk.plane.part.y!(i3%)>=0 THEN 1442
1439 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.parts.y%(i3%)
1440 sk.plane.y!(i3%)=sk.plane.y!(i3%)-1
1441 GOTO 1438
1442 IF sk.plane.part.y!(i3%)<sk.ratio.parts.y%(i3%) THEN 1446
1443 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)-sk.ratio.parts.y%(i3%)
1444 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1445 GOTO 1442
1446 i2%=i3%
1447 GOSUB 1463
1448 NEXT
1449 RETURN
1450 sk.plane.x!(i3%)=sk.plane.x!(i3%)+sk.drift.x%(i3%)
1451 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)+sk.drift.step.x%(i3%)
1452 IF sk.drift.part.x%(i3%)<sk.drift.parts.x%(i3%) THEN 1455
1453 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)-sk.drift.parts.x%(i3%)
1454 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1455 sk.plane.y!(i3%)=sk.plane.y!(i3%)+sk.drift.y%(i3%)
1456 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)+sk.drift.step.y%(i3%)
1457 IF sk.drift.part.y%(i3%)<sk.drift.parts.y%(i3%) THEN 1460
1458 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)-sk.drift.parts.y%(i3%)
1459 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1460 i2%=i3%
1461 GOSUB 1463
1462 RETURN
1463 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)>=0 THEN 1466
1464 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)-sk.plane.w%(i2%)
1465 GOTO 1463
1466 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)<sk.plane.w%(i2%) THEN 1469
1467 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)+sk.plane.w%(i2%)
1468 GOTO 1466
1469 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)>=0 THEN 1472
1470 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)-sk.plane.h%(i2%)
1471 GOTO 1469
1472 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)<sk.plane.h%(i2%) THEN 1475
1473 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)+sk.plane.h%(i2%)
1474 GOTO 1472
1475 RETURN
1476 changed%=0
1477 FOR i2%=0 TO sk.cycles%-1
1478 sk.cycle.left%(i2%)=sk.cycle.left%(i2%)-1
1479 IF sk.cycle.left%(i2%)<>0 THEN 1483
1480 i3%=i2%
1481 GOSUB 1494
1482 changed%=1
1483 NEXT
1484 FOR i2%=0 TO sk.events%-1
1485 IF sk.event.done%(i2%)>=sk.event.steps%(i2%) THEN 1490
1486 IF sk.tick!<sk.event.next!(i2%) THEN 1490
1487 sk.event.done%(i2%)=sk.event.done%(i2%)+1
1488 sk.event.next!(i2%)=sk.event.next!(i2%)+sk.event.wait%(i2%)
1489 changed%=1
1490 NEXT
1491 IF changed%<>1 THEN 1493
1492 GOSUB 1502
1493 RETURN
1494 sk.cycle.left%(i3%)=sk.cycle.ticks%(i3%)
1495 sk.cycle.turn%(i3%)=((sk.cycle.turn%(i3%)+1)-sk.cycle.period%(i3%)*INT((sk.cycle.turn%(i3%)+1)/sk.cycle.period%(i3%)))
1496 sk.cycle.shift%(i3%)=sk.cycle.turn%(i3%)
1497 IF sk.cycle.turn%(i3%)<sk.cycle.count%(i3%) THEN 1499
1498 sk.cycle.shift%(i3%)=sk.cycle.period%(i3%)-sk.cycle.turn%(i3%)
1499 IF sk.cycle.back%(i3%)<>1 THEN 1501
1500 sk.cycle.shift%(i3%)=((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1501 RETURN
1502 FOR i3%=0 TO sk.cycles%-1
1503 FOR j%=0 TO sk.cycle.count%(i3%)-1
1504 sk.now%(sk.cycle.first%(i3%)+j%)=sk.cycle.first%(i3%)+((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1505 NEXT
1506 NEXT
1507 FOR i3%=0 TO sk.events%-1
1508 IF sk.event.done%(i3%)<=0 THEN 1512
1509 FOR j%=0 TO sk.event.count%(i3%)-1
1510 sk.now%(sk.event.entry%(sk.event.first%(i3%)+j%))=sk.event.colour%(i3%)+(sk.event.done%(i3%)-1)*sk.event.count%(i3%)+j%
1511 NEXT
1512 NEXT
1513 RETURN
1514 sk.pose.x!=sk.mover.x!(i%+1)
1515 sk.pose.y!=sk.mover.y!(i%+1)
1516 IF sk.actor.plane%(i%)<0 THEN 1519
1517 sk.pose.x!=sk.pose.x!-sk.plane.x!(sk.actor.plane%(i%))
1518 sk.pose.y!=sk.pose.y!-sk.plane.y!(sk.actor.plane%(i%))
1519 n%=sk.animation.first%(sk.actor.shows%(i%))+sk.actor.step%(i%)
1520 sk.pose.frame%=sk.step.frame%(n%)
1521 sk.pose.flip%=(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))-2*INT(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))/2))
1522 sk.pose.flip%=sk.pose.flip%+((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))-2*INT((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))/2))*2
1523 RETURN
1524 i%=i2%
1525 GOSUB 1514
1526 sk.hit.wide%=sk.hit.w%(sk.pose.frame%)
1527 sk.hit.high%=sk.hit.h%(sk.pose.frame%)
1528 sk.hit.left!=sk.pose.x!+sk.hit.x%(sk.pose.frame%)
1529 IF (sk.pose.flip%-2*INT(sk.pose.flip%/2))<>1 THEN 1531
1530 sk.hit.left!=sk.pose.x!-sk.hit.x%(sk.pose.frame%)-sk.hit.wide%+1
1531 sk.hit.top!=sk.pose.y!+sk.hit.y%(sk.pose.frame%)
1532 IF INT(sk.pose.flip%/2)<>1 THEN 1534
1533 sk.hit.top!=sk.pose.y!-sk.hit.y%(sk.pose.frame%)-sk.hit.high%+1
1534 RETURN
1535 sk.touching%=0
1536 i2%=i3%
1537 GOSUB 1524
1538 x!=sk.hit.left!
1539 y!=sk.hit.top!
1540 w%=sk.hit.wide%
1541 h%=sk.hit.high%
1542 i2%=j%
1543 GOSUB 1524
1544 IF w%=0 THEN 1546
1545 IF sk.hit.wide%<>0 THEN 1547
1546 RETURN
1547 IF x!>=sk.hit.left!+sk.hit.wide% THEN 1552
1548 IF sk.hit.left!>=x!+w% THEN 1552
1549 IF y!>=sk.hit.top!+sk.hit.high% THEN 1552
1550 IF sk.hit.top!>=y!+h% THEN 1552
1551 sk.touching%=1
1552 RETURN
1553 sk.flags%=0
1554 IF sk.flag.first%(p%)>=0 THEN 1556
1555 RETURN
1556 IF sk.wrap.x%(p%)<>1 THEN 1561
1557 IF x!>=0 THEN 1560
1558 x!=x!+sk.plane.w%(p%)
1559 GOTO 1557
1560 x!=(x!-sk.plane.w%(p%)*INT(x!/sk.plane.w%(p%)))
1561 IF sk.wrap.y%(p%)<>1 THEN 1566
1562 IF y!>=0 THEN 1565
1563 y!=y!+sk.plane.h%(p%)
1564 GOTO 1562
1565 y!=(y!-sk.plane.h%(p%)*INT(y!/sk.plane.h%(p%)))
1566 IF x!<0 THEN 1570
1567 IF y!<0 THEN 1570
1568 IF x!>=sk.plane.w%(p%) THEN 1570
1569 IF y!<sk.plane.h%(p%) THEN 1571
1570 RETURN
1571 p2%=p%
1572 n%=INT(y!/sk.flag.h%(p%))*sk.flag.columns%(p%)+INT(x!/sk.flag.w%(p%))
1573 GOSUB 1599
1574 RETURN
1575 FOR i2%=0 TO sk.entries%-1
1576 sk.now%(i2%)=i2%
1577 NEXT
1578 RETURN
1579 sk.held$=INKEY$
1580 k%=-(sk.held$=CHR$(0)+"K")-2*(sk.held$=CHR$(0)+"M")-4*(sk.held$=CHR$(0)+"H")
1581 k%=k%-8*(sk.held$=CHR$(0)+"P")-16*(sk.held$=" ")
1582 n%=k%
1583 GOSUB 1585
1584 RETURN
1585 sk.steer.left%=(n%-2*INT(n%/2))
1586 sk.steer.right%=((INT(n%/2))-2*INT((INT(n%/2))/2))
1587 sk.steer.up%=((INT(n%/4))-2*INT((INT(n%/4))/2))
1588 sk.steer.down%=((INT(n%/8))-2*INT((INT(n%/8))/2))
1589 sk.steer.act%=((INT(n%/16))-2*INT((INT(n%/16))/2))
1590 RETURN
1591 u2!=x!-sk.mover.x!(0)
1592 v2!=y!-sk.mover.y!(0)
1593 sk.mover.x!(0)=x!
1594 sk.mover.y!(0)=y!
1595 u!=u2!
1596 v!=v2!
1597 GOSUB 1427
1598 RETURN
1599 sk.flags%=sk.flag.cell%(sk.flag.first%(p2%)+n%)
1600 RETURN
1601 FOR i3%=0 TO sk.actors%-1
1602 i2%=i3%
1603 GOSUB 1417
1604 m2%=i3%+1
1605 GOSUB 1355
1606 NEXT
1607 RETURN
1608 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1609 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1610 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1611 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1612 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1613 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1614 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1615 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1616 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1617 DATA 1
1618 DATA 1
1619 DATA 8
1620 DATA 8
1621 DATA 8
1622 DATA 8
1623 DATA 8
1624 DATA 8
1625 DATA 0
1626 DATA 1
1627 DATA 1
1628 DATA 1
1629 DATA 0
1630 DATA 0
1631 DATA 1
1632 DATA 0
1633 DATA 0
1634 DATA 0
1635 DATA 0
1636 DATA 1
1637 DATA 1
1638 DATA 0
1639 DATA 0
1640 DATA 1
1641 DATA 0
1642 DATA 0
1643 DATA 0
1644 DATA 0
1645 DATA 8
1646 DATA 8
1647 DATA 0
1648 DATA -1
1649 DATA 0
1650 DATA 1
1651 DATA 1
1652 DATA 0
1653 DATA 0
1654 DATA 0
1655 DATA 0
1656 DATA 0
1657 END
