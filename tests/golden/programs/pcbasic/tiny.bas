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
1145 RESTORE 1592
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
1276 GOSUB 1571
1277 RETURN
1278 sk.tick!=0
1279 FOR i%=0 TO sk.movers%-1
1280 sk.mover.x!(i%)=sk.start.x!(i%)
1281 sk.mover.y!(i%)=sk.start.y!(i%)
1282 sk.mover.part.x%(i%)=0
1283 sk.mover.part.y%(i%)=0
1284 sk.mover.used%(i%)=0
1285 sk.mover.segment%(i%)=0
1286 IF sk.path.count%(i%)<>0 THEN 1288
1287 sk.mover.segment%(i%)=-1
1288 NEXT
1289 FOR i%=0 TO sk.planes%-1
1290 sk.plane.x!(i%)=sk.plane.start.x!(i%)
1291 sk.plane.y!(i%)=sk.plane.start.y!(i%)
1292 sk.plane.part.x!(i%)=sk.plane.start.part.x%(i%)
1293 sk.plane.part.y!(i%)=sk.plane.start.part.y%(i%)
1294 sk.drift.part.x%(i%)=0
1295 sk.drift.part.y%(i%)=0
1296 sk.wrap.base.x!(i%)=sk.start.base.x!(i%)
1297 sk.wrap.base.y!(i%)=sk.start.base.y!(i%)
1298 i2%=i%
1299 GOSUB 1459
1300 NEXT
1301 FOR i%=0 TO sk.actors%-1
1302 sk.actor.face%(i%)=sk.start.face%(i%)
1303 sk.actor.does%(i%)=sk.start.does%(i%)
1304 sk.actor.shows%(i%)=-1
1305 i2%=i%
1306 GOSUB 1397
1307 NEXT
1308 FOR i%=1 TO sk.movers%-1
1309 m%=i%
1310 GOSUB 1387
1311 NEXT
1312 FOR i%=0 TO sk.cycles%-1
1313 sk.cycle.shift%(i%)=0
1314 sk.cycle.turn%(i%)=0
1315 sk.cycle.left%(i%)=sk.cycle.ticks%(i%)
1316 NEXT
1317 FOR i%=0 TO sk.events%-1
1318 sk.event.done%(i%)=0
1319 sk.event.next!(i%)=sk.event.tick!(i%)
1320 NEXT
1321 FOR i%=0 TO sk.covers%-1
1322 sk.cover.used%(i%)=0
1323 sk.cover.done%(i%)=0
1324 i2%=i%
1325 GOSUB 1348
1326 NEXT
1327 GOSUB 1498
1328 RETURN
1329 sk.tick!=sk.tick!+1
1330 x!=sk.mover.x!(0)
1331 y!=sk.mover.y!(0)
1332 m2%=0
1333 GOSUB 1353
1334 u!=sk.mover.x!(0)-x!
1335 v!=sk.mover.y!(0)-y!
1336 GOSUB 1423
1337 FOR i%=0 TO sk.planes%-1
1338 i3%=i%
1339 GOSUB 1446
1340 NEXT
1341 GOSUB 1585
1342 FOR i%=0 TO sk.covers%-1
1343 i2%=i%
1344 GOSUB 1348
1345 NEXT
1346 GOSUB 1472
1347 RETURN
1348 IF sk.tick!<sk.cover.tick%(i2%) THEN 1352
1349 IF sk.cover.used%(i2%)>=sk.cover.ticks%(i2%) THEN 1352
1350 sk.cover.used%(i2%)=sk.cover.used%(i2%)+1
1351 sk.cover.done%(i2%)=sk.cover.count%(sk.cover.begin%(i2%)+sk.cover.used%(i2%))
1352 RETURN
1353 s!=sk.mover.segment%(m2%)
1354 IF s!>=0 THEN 1356
1355 RETURN
1356 s!=sk.path.first%(m2%)+s!
1357 sk.mover.x!(m2%)=sk.mover.x!(m2%)+sk.segment.x%(s!)
1358 sk.mover.part.x%(m2%)=sk.mover.part.x%(m2%)+sk.segment.part.x%(s!)
1359 IF sk.mover.part.x%(m2%)<sk.segment.parts.x%(s!) THEN 1362
1360 sk.mover.part.x%(m2%)=sk.mover.part.x%(m2%)-sk.segment.parts.x%(s!)
1361 sk.mover.x!(m2%)=sk.mover.x!(m2%)+1
1362 sk.mover.y!(m2%)=sk.mover.y!(m2%)+sk.segment.y%(s!)
1363 sk.mover.part.y%(m2%)=sk.mover.part.y%(m2%)+sk.segment.part.y%(s!)
1364 IF sk.mover.part.y%(m2%)<sk.segment.parts.y%(s!) THEN 1367
1365 sk.mover.part.y%(m2%)=sk.mover.part.y%(m2%)-sk.segment.parts.y%(s!)
1366 sk.mover.y!(m2%)=sk.mover.y!(m2%)+1
1367 sk.mover.used%(m2%)=sk.mover.used%(m2%)+1
1368 IF sk.mover.used%(m2%)<>sk.segment.ticks%(s!) THEN 1371
1369 m3%=m2%
1370 GOSUB 1372
1371 RETURN
1372 sk.mover.used%(m3%)=0
1373 sk.mover.part.x%(m3%)=0
1374 sk.mover.part.y%(m3%)=0
1375 sk.mover.segment%(m3%)=sk.mover.segment%(m3%)+1
1376 IF sk.mover.segment%(m3%)<>sk.path.count%(m3%) THEN 1383
1377 sk.mover.segment%(m3%)=0
1378 IF sk.path.repeat%(m3%)<>0 THEN 1380
1379 sk.mover.segment%(m3%)=-1
1380 IF sk.path.repeat%(m3%)<>1 THEN 1383
1381 sk.mover.x!(m3%)=sk.start.x!(m3%)
1382 sk.mover.y!(m3%)=sk.start.y!(m3%)
1383 IF m3%<=0 THEN 1386
1384 m%=m3%
1385 GOSUB 1387
1386 RETURN
1387 IF sk.mover.segment%(m%)>=0 THEN 1389
1388 RETURN
1389 s2!=sk.path.first%(m%)+sk.mover.segment%(m%)
1390 IF sk.segment.does%(s2!)<0 THEN 1392
1391 sk.actor.does%(m%-1)=sk.segment.does%(s2!)
1392 IF sk.segment.face%(s2!)<0 THEN 1394
1393 sk.actor.face%(m%-1)=sk.segment.face%(s2!)
1394 i2%=m%-1
1395 GOSUB 1397
1396 RETURN
1397 n%=sk.look%(sk.actor.look%(i2%)+4*sk.actor.does%(i2%)+sk.actor.face%(i2%))
1398 sk.actor.flip%(i2%)=(n%-4*INT(n%/4))
1399 n%=INT(n%/4)
1400 IF n%=sk.actor.shows%(i2%) THEN 1404
1401 sk.actor.shows%(i2%)=n%
1402 sk.actor.step%(i2%)=0
1403 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%))
1404 RETURN
1405 sk.actor.does%(i%)=n2%
1406 i2%=i%
1407 GOSUB 1397
1408 RETURN
1409 sk.actor.face%(i%)=f%
1410 i2%=i%
1411 GOSUB 1397
1412 RETURN
1413 n%=sk.actor.shows%(i2%)
1414 sk.actor.left%(i2%)=sk.actor.left%(i2%)-1
1415 IF sk.actor.left%(i2%)<>0 THEN 1422
1416 sk.actor.step%(i2%)=sk.actor.step%(i2%)+1
1417 IF sk.actor.step%(i2%)<>sk.animation.count%(n%) THEN 1421
1418 sk.actor.step%(i2%)=0
1419 IF sk.animation.again%(n%)<>0 THEN 1421
1420 sk.actor.step%(i2%)=sk.animation.count%(n%)-1
1421 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%)+sk.actor.step%(i2%))
1422 RETURN
1423 FOR i3%=0 TO sk.planes%-1
1424 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.x%(i3%)*u!
1425 IF sk.plane.part.x!(i3%)>=0 THEN 1429
1426 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.parts.x%(i3%)
1427 sk.plane.x!(i3%)=sk.plane.x!(i3%)-1
1428 GOTO 1425
1429 IF sk.plane.part.x!(i3%)<sk.ratio.parts.x%(i3%) THEN 1433
1430 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)-sk.ratio.parts.x%(i3%)
1431 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1432 GOTO 1429
1433 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.y%(i3%)*v!
1434 IF sk.plane.part.y!(i3%)>=0 THEN 1438
1435 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.parts.y%(i3%)
1436 sk.plane.y!(i3%)=sk.plane.y!(i3%)-1
1437 GOTO 1434
1438 IF sk.plane.part.y!(i3%)<sk.ratio.parts.y%(i3%) THEN 1442
1439 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)-sk.ratio.parts.y%(i3%)
1440 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1441 GOTO 1438
1442 i2%=i3%
1443 GOSUB 1459
1444 NEXT
1445 RETURN
1446 sk.plane.x!(i3%)=sk.plane.x!(i3%)+sk.drift.x%(i3%)
1447 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)+sk.drift.step.x%(i3%)
1448 IF sk.drift.part.x%(i3%)<sk.drift.parts.x%(i3%) THEN 1451
1449 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)-sk.drift.parts.x%(i3%)
1450 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1451 sk.plane.y!(i3%)=sk.plane.y!(i3%)+sk.drift.y%(i3%)
1452 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)+sk.drift.step.y%(i3%)
1453 IF sk.drift.part.y%(i3%)<sk.drift.parts.y%(i3%) THEN 1456
1454 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)-sk.drift.parts.y%(i3%)
1455 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1456 i2%=i3%
1457 GOSUB 1459
1458 RETURN
1459 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)>=0 THEN 1462
1460 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)-sk.plane.w%(i2%)
1461 GOTO 1459
1462 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)<sk.plane.w%(i2%) THEN 1465
1463 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)+sk.plane.w%(i2%)
1464 GOTO 1462
1465 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)>=0 THEN 1468
1466 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)-sk.plane.h%(i2%)
1467 GOTO 1465
1468 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)<sk.plane.h%(i2%) THEN 1471
1469 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)+sk.plane.h%(i2%)
1470 GOTO 1468
1471 RETURN
1472 changed%=0
1473 FOR i2%=0 TO sk.cycles%-1
1474 sk.cycle.left%(i2%)=sk.cycle.left%(i2%)-1
1475 IF sk.cycle.left%(i2%)<>0 THEN 1479
1476 i3%=i2%
1477 GOSUB 1490
1478 changed%=1
1479 NEXT
1480 FOR i2%=0 TO sk.events%-1
1481 IF sk.event.done%(i2%)>=sk.event.steps%(i2%) THEN 1486
1482 IF sk.tick!<sk.event.next!(i2%) THEN 1486
1483 sk.event.done%(i2%)=sk.event.done%(i2%)+1
1484 sk.event.next!(i2%)=sk.event.next!(i2%)+sk.event.wait%(i2%)
1485 changed%=1
1486 NEXT
1487 IF changed%<>1 THEN 1489
1488 GOSUB 1498
1489 RETURN
1490 sk.cycle.left%(i3%)=sk.cycle.ticks%(i3%)
1491 sk.cycle.turn%(i3%)=((sk.cycle.turn%(i3%)+1)-sk.cycle.period%(i3%)*INT((sk.cycle.turn%(i3%)+1)/sk.cycle.period%(i3%)))
1492 sk.cycle.shift%(i3%)=sk.cycle.turn%(i3%)
1493 IF sk.cycle.turn%(i3%)<sk.cycle.count%(i3%) THEN 1495
1494 sk.cycle.shift%(i3%)=sk.cycle.period%(i3%)-sk.cycle.turn%(i3%)
1495 IF sk.cycle.back%(i3%)<>1 THEN 1497
1496 sk.cycle.shift%(i3%)=((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1497 RETURN
1498 FOR i3%=0 TO sk.cycles%-1
1499 FOR j%=0 TO sk.cycle.count%(i3%)-1
1500 sk.now%(sk.cycle.first%(i3%)+j%)=sk.cycle.first%(i3%)+((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1501 NEXT
1502 NEXT
1503 FOR i3%=0 TO sk.events%-1
1504 IF sk.event.done%(i3%)<=0 THEN 1508
1505 FOR j%=0 TO sk.event.count%(i3%)-1
1506 sk.now%(sk.event.entry%(sk.event.first%(i3%)+j%))=sk.event.colour%(i3%)+(sk.event.done%(i3%)-1)*sk.event.count%(i3%)+j%
1507 NEXT
1508 NEXT
1509 RETURN
1510 sk.pose.x!=sk.mover.x!(i%+1)
1511 sk.pose.y!=sk.mover.y!(i%+1)
1512 IF sk.actor.plane%(i%)<0 THEN 1515
1513 sk.pose.x!=sk.pose.x!-sk.plane.x!(sk.actor.plane%(i%))
1514 sk.pose.y!=sk.pose.y!-sk.plane.y!(sk.actor.plane%(i%))
1515 n%=sk.animation.first%(sk.actor.shows%(i%))+sk.actor.step%(i%)
1516 sk.pose.frame%=sk.step.frame%(n%)
1517 sk.pose.flip%=(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))-2*INT(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))/2))
1518 sk.pose.flip%=sk.pose.flip%+((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))-2*INT((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))/2))*2
1519 RETURN
1520 i%=i2%
1521 GOSUB 1510
1522 sk.hit.wide%=sk.hit.w%(sk.pose.frame%)
1523 sk.hit.high%=sk.hit.h%(sk.pose.frame%)
1524 sk.hit.left!=sk.pose.x!+sk.hit.x%(sk.pose.frame%)
1525 IF (sk.pose.flip%-2*INT(sk.pose.flip%/2))<>1 THEN 1527
1526 sk.hit.left!=sk.pose.x!-sk.hit.x%(sk.pose.frame%)-sk.hit.wide%+1
1527 sk.hit.top!=sk.pose.y!+sk.hit.y%(sk.pose.frame%)
1528 IF INT(sk.pose.flip%/2)<>1 THEN 1530
1529 sk.hit.top!=sk.pose.y!-sk.hit.y%(sk.pose.frame%)-sk.hit.high%+1
1530 RETURN
1531 sk.touching%=0
1532 i2%=i3%
1533 GOSUB 1520
1534 x!=sk.hit.left!
1535 y!=sk.hit.top!
1536 w%=sk.hit.wide%
1537 h%=sk.hit.high%
1538 i2%=j%
1539 GOSUB 1520
1540 IF w%=0 THEN 1542
1541 IF sk.hit.wide%<>0 THEN 1543
1542 RETURN
1543 IF x!>=sk.hit.left!+sk.hit.wide% THEN 1548
1544 IF sk.hit.left!>=x!+w% THEN 1548
1545 IF y!>=sk.hit.top!+sk.hit.high% THEN 1548
1546 IF sk.hit.top!>=y!+h% THEN 1548
1547 sk.touching%=1
1548 RETURN
1549 sk.flags%=0
1550 IF sk.flag.first%(p%)>=0 THEN 1552
1551 RETURN
1552 IF sk.wrap.x%(p%)<>1 THEN 1557
1553 IF x!>=0 THEN 1556
1554 x!=x!+sk.plane.w%(p%)
1555 GOTO 1553
1556 x!=(x!-sk.plane.w%(p%)*INT(x!/sk.plane.w%(p%)))
1557 IF sk.wrap.y%(p%)<>1 THEN 1562
1558 IF y!>=0 THEN 1561
1559 y!=y!+sk.plane.h%(p%)
1560 GOTO 1558
1561 y!=(y!-sk.plane.h%(p%)*INT(y!/sk.plane.h%(p%)))
1562 IF x!<0 THEN 1566
1563 IF y!<0 THEN 1566
1564 IF x!>=sk.plane.w%(p%) THEN 1566
1565 IF y!<sk.plane.h%(p%) THEN 1567
1566 RETURN
1567 p2%=p%
1568 n%=INT(y!/sk.flag.h%(p%))*sk.flag.columns%(p%)+INT(x!/sk.flag.w%(p%))
1569 GOSUB 1583
1570 RETURN
1571 FOR i2%=0 TO sk.entries%-1
1572 sk.now%(i2%)=i2%
1573 NEXT
1574 RETURN
1575 u2!=x!-sk.mover.x!(0)
1576 v2!=y!-sk.mover.y!(0)
1577 sk.mover.x!(0)=x!
1578 sk.mover.y!(0)=y!
1579 u!=u2!
1580 v!=v2!
1581 GOSUB 1423
1582 RETURN
1583 sk.flags%=sk.flag.cell%(sk.flag.first%(p2%)+n%)
1584 RETURN
1585 FOR i3%=0 TO sk.actors%-1
1586 i2%=i3%
1587 GOSUB 1413
1588 m2%=i3%+1
1589 GOSUB 1353
1590 NEXT
1591 RETURN
1592 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1593 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1594 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1595 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1596 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1597 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1598 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1599 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1600 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1601 DATA 1
1602 DATA 1
1603 DATA 8
1604 DATA 8
1605 DATA 8
1606 DATA 8
1607 DATA 8
1608 DATA 8
1609 DATA 0
1610 DATA 1
1611 DATA 1
1612 DATA 1
1613 DATA 0
1614 DATA 0
1615 DATA 1
1616 DATA 0
1617 DATA 0
1618 DATA 0
1619 DATA 0
1620 DATA 1
1621 DATA 1
1622 DATA 0
1623 DATA 0
1624 DATA 1
1625 DATA 0
1626 DATA 0
1627 DATA 0
1628 DATA 0
1629 DATA 8
1630 DATA 8
1631 DATA 0
1632 DATA -1
1633 DATA 0
1634 DATA 1
1635 DATA 1
1636 DATA 0
1637 DATA 0
1638 DATA 0
1639 DATA 0
1640 DATA 0
1641 END
