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
1133 GOSUB 1645
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
1155 RESTORE 1786
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
1286 GOSUB 1624
1287 RETURN
1288 sk.tick!=0
1289 FOR i%=0 TO sk.movers%-1
1290 sk.mover.x!(i%)=sk.start.x!(i%)
1291 sk.mover.y!(i%)=sk.start.y!(i%)
1292 sk.mover.part.x%(i%)=0
1293 sk.mover.part.y%(i%)=0
1294 sk.mover.used%(i%)=0
1295 sk.mover.segment%(i%)=0
1296 IF sk.path.count%(i%)<>0 THEN 1298
1297 sk.mover.segment%(i%)=-1
1298 NEXT
1299 FOR i%=0 TO sk.planes%-1
1300 sk.plane.x!(i%)=sk.plane.start.x!(i%)
1301 sk.plane.y!(i%)=sk.plane.start.y!(i%)
1302 sk.plane.part.x!(i%)=sk.plane.start.part.x%(i%)
1303 sk.plane.part.y!(i%)=sk.plane.start.part.y%(i%)
1304 sk.drift.part.x%(i%)=0
1305 sk.drift.part.y%(i%)=0
1306 sk.wrap.base.x!(i%)=sk.start.base.x!(i%)
1307 sk.wrap.base.y!(i%)=sk.start.base.y!(i%)
1308 i2%=i%
1309 GOSUB 1469
1310 NEXT
1311 FOR i%=0 TO sk.actors%-1
1312 sk.actor.face%(i%)=sk.start.face%(i%)
1313 sk.actor.does%(i%)=sk.start.does%(i%)
1314 sk.actor.shows%(i%)=-1
1315 i2%=i%
1316 GOSUB 1407
1317 NEXT
1318 FOR i%=1 TO sk.movers%-1
1319 m%=i%
1320 GOSUB 1397
1321 NEXT
1322 FOR i%=0 TO sk.cycles%-1
1323 sk.cycle.shift%(i%)=0
1324 sk.cycle.turn%(i%)=0
1325 sk.cycle.left%(i%)=sk.cycle.ticks%(i%)
1326 NEXT
1327 FOR i%=0 TO sk.events%-1
1328 sk.event.done%(i%)=0
1329 sk.event.next!(i%)=sk.event.tick!(i%)
1330 NEXT
1331 FOR i%=0 TO sk.covers%-1
1332 sk.cover.used%(i%)=0
1333 sk.cover.done%(i%)=0
1334 i2%=i%
1335 GOSUB 1358
1336 NEXT
1337 GOSUB 1508
1338 RETURN
1339 sk.tick!=sk.tick!+1
1340 x!=sk.mover.x!(0)
1341 y!=sk.mover.y!(0)
1342 m2%=0
1343 GOSUB 1363
1344 u!=sk.mover.x!(0)-x!
1345 v!=sk.mover.y!(0)-y!
1346 GOSUB 1433
1347 FOR i%=0 TO sk.planes%-1
1348 i3%=i%
1349 GOSUB 1456
1350 NEXT
1351 GOSUB 1638
1352 FOR i%=0 TO sk.covers%-1
1353 i2%=i%
1354 GOSUB 1358
1355 NEXT
1356 GOSUB 1482
1357 RETURN
1358 IF sk.tick!<sk.cover.tick%(i2%) THEN 1362
1359 IF sk.cover.used%(i2%)>=sk.cover.ticks%(i2%) THEN 1362
1360 sk.cover.used%(i2%)=sk.cover.used%(i2%)+1
1361 sk.cover.done%(i2%)=sk.cover.count%(sk.cover.begin%(i2%)+sk.cover.used%(i2%))
1362 RETURN
1363 s2!=sk.mover.segment%(m2%)
1364 IF s2!>=0 THEN 1366
1365 RETURN
1366 s2!=sk.path.first%(m2%)+s2!
1367 sk.mover.x!(m2%)=sk.mover.x!(m2%)+sk.segment.x%(s2!)
1368 sk.mover.part.x%(m2%)=sk.mover.part.x%(m2%)+sk.segment.part.x%(s2!)
1369 IF sk.mover.part.x%(m2%)<sk.segment.parts.x%(s2!) THEN 1372
1370 sk.mover.part.x%(m2%)=sk.mover.part.x%(m2%)-sk.segment.parts.x%(s2!)
1371 sk.mover.x!(m2%)=sk.mover.x!(m2%)+1
1372 sk.mover.y!(m2%)=sk.mover.y!(m2%)+sk.segment.y%(s2!)
1373 sk.mover.part.y%(m2%)=sk.mover.part.y%(m2%)+sk.segment.part.y%(s2!)
1374 IF sk.mover.part.y%(m2%)<sk.segment.parts.y%(s2!) THEN 1377
1375 sk.mover.part.y%(m2%)=sk.mover.part.y%(m2%)-sk.segment.parts.y%(s2!)
1376 sk.mover.y!(m2%)=sk.mover.y!(m2%)+1
1377 sk.mover.used%(m2%)=sk.mover.used%(m2%)+1
1378 IF sk.mover.used%(m2%)<>sk.segment.ticks%(s2!) THEN 1381
1379 m3%=m2%
1380 GOSUB 1382
1381 RETURN
1382 sk.mover.used%(m3%)=0
1383 sk.mover.part.x%(m3%)=0
1384 sk.mover.part.y%(m3%)=0
1385 sk.mover.segment%(m3%)=sk.mover.segment%(m3%)+1
1386 IF sk.mover.segment%(m3%)<>sk.path.count%(m3%) THEN 1393
1387 sk.mover.segment%(m3%)=0
1388 IF sk.path.repeat%(m3%)<>0 THEN 1390
1389 sk.mover.segment%(m3%)=-1
1390 IF sk.path.repeat%(m3%)<>1 THEN 1393
1391 sk.mover.x!(m3%)=sk.start.x!(m3%)
1392 sk.mover.y!(m3%)=sk.start.y!(m3%)
1393 IF m3%<=0 THEN 1396
1394 m%=m3%
1395 GOSUB 1397
1396 RETURN
1397 IF sk.mover.segment%(m%)>=0 THEN 1399
1398 RETURN
1399 s3!=sk.path.first%(m%)+sk.mover.segment%(m%)
1400 IF sk.segment.does%(s3!)<0 THEN 1402
1401 sk.actor.does%(m%-1)=sk.segment.does%(s3!)
1402 IF sk.segment.face%(s3!)<0 THEN 1404
1403 sk.actor.face%(m%-1)=sk.segment.face%(s3!)
1404 i2%=m%-1
1405 GOSUB 1407
1406 RETURN
1407 n%=sk.look%(sk.actor.look%(i2%)+4*sk.actor.does%(i2%)+sk.actor.face%(i2%))
1408 sk.actor.flip%(i2%)=(n%-4*INT(n%/4))
1409 n%=INT(n%/4)
1410 IF n%=sk.actor.shows%(i2%) THEN 1414
1411 sk.actor.shows%(i2%)=n%
1412 sk.actor.step%(i2%)=0
1413 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%))
1414 RETURN
1415 sk.actor.does%(i%)=n2%
1416 i2%=i%
1417 GOSUB 1407
1418 RETURN
1419 sk.actor.face%(i%)=f%
1420 i2%=i%
1421 GOSUB 1407
1422 RETURN
1423 n%=sk.actor.shows%(i2%)
1424 sk.actor.left%(i2%)=sk.actor.left%(i2%)-1
1425 IF sk.actor.left%(i2%)<>0 THEN 1432
1426 sk.actor.step%(i2%)=sk.actor.step%(i2%)+1
1427 IF sk.actor.step%(i2%)<>sk.animation.count%(n%) THEN 1431
1428 sk.actor.step%(i2%)=0
1429 IF sk.animation.again%(n%)<>0 THEN 1431
1430 sk.actor.step%(i2%)=sk.animation.count%(n%)-1
1431 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%)+sk.actor.step%(i2%))
1432 RETURN
1433 FOR i3%=0 TO sk.planes%-1
1434 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.x%(i3%)*u!
1435 IF sk.plane.part.x!(i3%)>=0 THEN 1439
1436 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.parts.x%(i3%)
1437 sk.plane.x!(i3%)=sk.plane.x!(i3%)-1
1438 GOTO 1435
1439 IF sk.plane.part.x!(i3%)<sk.ratio.parts.x%(i3%) THEN 1443
1440 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)-sk.ratio.parts.x%(i3%)
1441 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1442 GOTO 1439
1443 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.y%(i3%)*v!
1444 IF sk.plane.part.y!(i3%)>=0 THEN 1448
1445 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.parts.y%(i3%)
1446 sk.plane.y!(i3%)=sk.plane.y!(i3%)-1
1447 GOTO 1444
1448 IF sk.plane.part.y!(i3%)<sk.ratio.parts.y%(i3%) THEN 1452
1449 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)-sk.ratio.parts.y%(i3%)
1450 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1451 GOTO 1448
1452 i2%=i3%
1453 GOSUB 1469
1454 NEXT
1455 RETURN
1456 sk.plane.x!(i3%)=sk.plane.x!(i3%)+sk.drift.x%(i3%)
1457 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)+sk.drift.step.x%(i3%)
1458 IF sk.drift.part.x%(i3%)<sk.drift.parts.x%(i3%) THEN 1461
1459 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)-sk.drift.parts.x%(i3%)
1460 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1461 sk.plane.y!(i3%)=sk.plane.y!(i3%)+sk.drift.y%(i3%)
1462 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)+sk.drift.step.y%(i3%)
1463 IF sk.drift.part.y%(i3%)<sk.drift.parts.y%(i3%) THEN 1466
1464 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)-sk.drift.parts.y%(i3%)
1465 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1466 i2%=i3%
1467 GOSUB 1469
1468 RETURN
1469 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)>=0 THEN 1472
1470 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)-sk.plane.w%(i2%)
1471 GOTO 1469
1472 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)<sk.plane.w%(i2%) THEN 1475
1473 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)+sk.plane.w%(i2%)
1474 GOTO 1472
1475 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)>=0 THEN 1478
1476 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)-sk.plane.h%(i2%)
1477 GOTO 1475
1478 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)<sk.plane.h%(i2%) THEN 1481
1479 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)+sk.plane.h%(i2%)
1480 GOTO 1478
1481 RETURN
1482 changed%=0
1483 FOR i2%=0 TO sk.cycles%-1
1484 sk.cycle.left%(i2%)=sk.cycle.left%(i2%)-1
1485 IF sk.cycle.left%(i2%)<>0 THEN 1489
1486 i3%=i2%
1487 GOSUB 1500
1488 changed%=1
1489 NEXT
1490 FOR i2%=0 TO sk.events%-1
1491 IF sk.event.done%(i2%)>=sk.event.steps%(i2%) THEN 1496
1492 IF sk.tick!<sk.event.next!(i2%) THEN 1496
1493 sk.event.done%(i2%)=sk.event.done%(i2%)+1
1494 sk.event.next!(i2%)=sk.event.next!(i2%)+sk.event.wait%(i2%)
1495 changed%=1
1496 NEXT
1497 IF changed%<>1 THEN 1499
1498 GOSUB 1508
1499 RETURN
1500 sk.cycle.left%(i3%)=sk.cycle.ticks%(i3%)
1501 sk.cycle.turn%(i3%)=((sk.cycle.turn%(i3%)+1)-sk.cycle.period%(i3%)*INT((sk.cycle.turn%(i3%)+1)/sk.cycle.period%(i3%)))
1502 sk.cycle.shift%(i3%)=sk.cycle.turn%(i3%)
1503 IF sk.cycle.turn%(i3%)<sk.cycle.count%(i3%) THEN 1505
1504 sk.cycle.shift%(i3%)=sk.cycle.period%(i3%)-sk.cycle.turn%(i3%)
1505 IF sk.cycle.back%(i3%)<>1 THEN 1507
1506 sk.cycle.shift%(i3%)=((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1507 RETURN
1508 FOR i3%=0 TO sk.cycles%-1
1509 FOR j%=0 TO sk.cycle.count%(i3%)-1
1510 sk.now%(sk.cycle.first%(i3%)+j%)=sk.cycle.first%(i3%)+((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1511 NEXT
1512 NEXT
1513 FOR i3%=0 TO sk.events%-1
1514 IF sk.event.done%(i3%)<=0 THEN 1518
1515 FOR j%=0 TO sk.event.count%(i3%)-1
1516 sk.now%(sk.event.entry%(sk.event.first%(i3%)+j%))=sk.event.colour%(i3%)+(sk.event.done%(i3%)-1)*sk.event.count%(i3%)+j%
1517 NEXT
1518 NEXT
1519 RETURN
1520 sk.pose.x!=sk.mover.x!(i%+1)
1521 sk.pose.y!=sk.mover.y!(i%+1)
1522 IF sk.actor.plane%(i%)<0 THEN 1525
1523 sk.pose.x!=sk.pose.x!-sk.plane.x!(sk.actor.plane%(i%))
1524 sk.pose.y!=sk.pose.y!-sk.plane.y!(sk.actor.plane%(i%))
1525 n%=sk.animation.first%(sk.actor.shows%(i%))+sk.actor.step%(i%)
1526 sk.pose.frame%=sk.step.frame%(n%)
1527 sk.pose.flip%=(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))-2*INT(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))/2))
1528 sk.pose.flip%=sk.pose.flip%+((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))-2*INT((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))/2))*2
1529 RETURN
1530 i%=i2%
1531 GOSUB 1520
1532 sk.hit.wide%=sk.hit.w%(sk.pose.frame%)
1533 sk.hit.high%=sk.hit.h%(sk.pose.frame%)
1534 sk.hit.left!=sk.pose.x!+sk.hit.x%(sk.pose.frame%)
1535 IF (sk.pose.flip%-2*INT(sk.pose.flip%/2))<>1 THEN 1537
1536 sk.hit.left!=sk.pose.x!-sk.hit.x%(sk.pose.frame%)-sk.hit.wide%+1
1537 sk.hit.top!=sk.pose.y!+sk.hit.y%(sk.pose.frame%)
1538 IF INT(sk.pose.flip%/2)<>1 THEN 1540
1539 sk.hit.top!=sk.pose.y!-sk.hit.y%(sk.pose.frame%)-sk.hit.high%+1
1540 RETURN
1541 sk.touching%=0
1542 i2%=i3%
1543 GOSUB 1530
1544 x!=sk.hit.left!
1545 y!=sk.hit.top!
1546 w%=sk.hit.wide%
1547 h%=sk.hit.high%
1548 i2%=j%
1549 GOSUB 1530
1550 IF w%=0 THEN 1552
1551 IF sk.hit.wide%<>0 THEN 1553
1552 RETURN
1553 IF x!>=sk.hit.left!+sk.hit.wide% THEN 1558
1554 IF sk.hit.left!>=x!+w% THEN 1558
1555 IF y!>=sk.hit.top!+sk.hit.high% THEN 1558
1556 IF sk.hit.top!>=y!+h% THEN 1558
1557 sk.touching%=1
1558 RETURN
1559 sk.flags%=0
1560 IF sk.flag.first%(p%)>=0 THEN 1562
1561 RETURN
1562 IF sk.wrap.x%(p%)<>1 THEN 1567
1563 IF x!>=0 THEN 1566
1564 x!=x!+sk.plane.w%(p%)
1565 GOTO 1563
1566 x!=(x!-sk.plane.w%(p%)*INT(x!/sk.plane.w%(p%)))
1567 IF sk.wrap.y%(p%)<>1 THEN 1572
1568 IF y!>=0 THEN 1571
1569 y!=y!+sk.plane.h%(p%)
1570 GOTO 1568
1571 y!=(y!-sk.plane.h%(p%)*INT(y!/sk.plane.h%(p%)))
1572 IF x!<0 THEN 1576
1573 IF y!<0 THEN 1576
1574 IF x!>=sk.plane.w%(p%) THEN 1576
1575 IF y!<sk.plane.h%(p%) THEN 1577
1576 RETURN
1577 p2%=p%
1578 n%=INT(y!/sk.flag.h%(p%))*sk.flag.columns%(p%)+INT(x!/sk.flag.w%(p%))
1579 GOSUB 1636
1580 RETURN
1581 PRINT#3,sk.tick!
1582 PRINT#3,sk.mover.x!(0)
1583 PRINT#3,sk.mover.y!(0)
1584 FOR i4%=0 TO sk.planes%-1
1585 PRINT#3,sk.plane.x!(i4%)
1586 PRINT#3,sk.plane.y!(i4%)
1587 NEXT
1588 FOR i4%=0 TO sk.actors%-1
1589 PRINT#3,sk.mover.x!(i4%+1)
1590 PRINT#3,sk.mover.y!(i4%+1)
1591 n2%=sk.animation.first%(sk.actor.shows%(i4%))+sk.actor.step%(i4%)
1592 PRINT#3,sk.step.frame%(n2%)
1593 PRINT#3,sk.actor.flip%(i4%)
1594 NEXT
1595 FOR i4%=0 TO sk.actors%-1
1596 i2%=i4%
1597 GOSUB 1530
1598 PRINT#3,sk.hit.left!
1599 PRINT#3,sk.hit.top!
1600 PRINT#3,sk.hit.wide%
1601 PRINT#3,sk.hit.high%
1602 IF i4%<=0 THEN 1607
1603 i3%=i4%-1
1604 j%=i4%
1605 GOSUB 1541
1606 PRINT#3,sk.touching%
1607 IF sk.actor.plane%(i4%)<0 THEN 1613
1608 p%=sk.actor.plane%(i4%)
1609 x!=sk.mover.x!(i4%+1)
1610 y!=sk.mover.y!(i4%+1)+1
1611 GOSUB 1559
1612 PRINT#3,sk.flags%
1613 NEXT
1614 FOR i4%=0 TO sk.covers%-1
1615 PRINT#3,sk.cover.done%(i4%)
1616 NEXT
1617 FOR i4%=0 TO sk.moving%-1
1618 n2%=sk.now%(sk.moving.entry%(i4%))
1619 PRINT#3,sk.red%(n2%)
1620 PRINT#3,sk.green%(n2%)
1621 PRINT#3,sk.blue%(n2%)
1622 NEXT
1623 RETURN
1624 FOR i2%=0 TO sk.entries%-1
1625 sk.now%(i2%)=i2%
1626 NEXT
1627 RETURN
1628 u2!=x!-sk.mover.x!(0)
1629 v2!=y!-sk.mover.y!(0)
1630 sk.mover.x!(0)=x!
1631 sk.mover.y!(0)=y!
1632 u!=u2!
1633 v!=v2!
1634 GOSUB 1433
1635 RETURN
1636 sk.flags%=sk.flag.cell%(sk.flag.first%(p2%)+n%)
1637 RETURN
1638 FOR i3%=0 TO sk.actors%-1
1639 i2%=i3%
1640 GOSUB 1423
1641 m2%=i3%+1
1642 GOSUB 1363
1643 NEXT
1644 RETURN
1645 OPEN "said.txt" FOR OUTPUT AS 3
1646 GOSUB 1656
1647 IF s!<0 THEN 1654
1648 IF sk.tick!>=s! THEN 1651
1649 GOSUB 1339
1650 GOTO 1648
1651 GOSUB 1581
1652 s!=-1:IF NOT EOF(2) THEN INPUT#2,s!
1653 GOTO 1647
1654 CLOSE 3
1655 RETURN
1656 FOR i%=0 TO 255
1657 PRINT#3,sk.red%(i%)
1658 NEXT
1659 FOR i%=0 TO 255
1660 PRINT#3,sk.green%(i%)
1661 NEXT
1662 FOR i%=0 TO 255
1663 PRINT#3,sk.blue%(i%)
1664 NEXT
1665 FOR i%=0 TO 0
1666 PRINT#3,sk.plane.columns%(i%)
1667 NEXT
1668 FOR i%=0 TO 0
1669 PRINT#3,sk.plane.rows%(i%)
1670 NEXT
1671 FOR i%=0 TO 0
1672 PRINT#3,sk.tile.w%(i%)
1673 NEXT
1674 FOR i%=0 TO 0
1675 PRINT#3,sk.tile.h%(i%)
1676 NEXT
1677 FOR i%=0 TO 0
1678 PRINT#3,sk.last.w%(i%)
1679 NEXT
1680 FOR i%=0 TO 0
1681 PRINT#3,sk.last.h%(i%)
1682 NEXT
1683 FOR i%=0 TO 0
1684 PRINT#3,sk.plane.w%(i%)
1685 NEXT
1686 FOR i%=0 TO 0
1687 PRINT#3,sk.plane.h%(i%)
1688 NEXT
1689 FOR i%=0 TO 0
1690 PRINT#3,sk.map.first%(i%)
1691 NEXT
1692 FOR i%=0 TO 0
1693 PRINT#3,sk.wrap.x%(i%)
1694 NEXT
1695 FOR i%=0 TO 0
1696 PRINT#3,sk.ratio.x%(i%)
1697 NEXT
1698 FOR i%=0 TO 0
1699 PRINT#3,sk.ratio.parts.x%(i%)
1700 NEXT
1701 FOR i%=0 TO 0
1702 PRINT#3,sk.drift.x%(i%)
1703 NEXT
1704 FOR i%=0 TO 0
1705 PRINT#3,sk.drift.step.x%(i%)
1706 NEXT
1707 FOR i%=0 TO 0
1708 PRINT#3,sk.drift.parts.x%(i%)
1709 NEXT
1710 FOR i%=0 TO 0
1711 PRINT#3,sk.plane.start.x!(i%)
1712 NEXT
1713 FOR i%=0 TO 0
1714 PRINT#3,sk.plane.start.part.x%(i%)
1715 NEXT
1716 FOR i%=0 TO 0
1717 PRINT#3,sk.start.base.x!(i%)
1718 NEXT
1719 FOR i%=0 TO 0
1720 PRINT#3,sk.wrap.y%(i%)
1721 NEXT
1722 FOR i%=0 TO 0
1723 PRINT#3,sk.ratio.y%(i%)
1724 NEXT
1725 FOR i%=0 TO 0
1726 PRINT#3,sk.ratio.parts.y%(i%)
1727 NEXT
1728 FOR i%=0 TO 0
1729 PRINT#3,sk.drift.y%(i%)
1730 NEXT
1731 FOR i%=0 TO 0
1732 PRINT#3,sk.drift.step.y%(i%)
1733 NEXT
1734 FOR i%=0 TO 0
1735 PRINT#3,sk.drift.parts.y%(i%)
1736 NEXT
1737 FOR i%=0 TO 0
1738 PRINT#3,sk.plane.start.y!(i%)
1739 NEXT
1740 FOR i%=0 TO 0
1741 PRINT#3,sk.plane.start.part.y%(i%)
1742 NEXT
1743 FOR i%=0 TO 0
1744 PRINT#3,sk.start.base.y!(i%)
1745 NEXT
1746 FOR i%=0 TO 0
1747 PRINT#3,sk.map.cell%(i%)
1748 NEXT
1749 FOR i%=0 TO 0
1750 PRINT#3,sk.piece.w%(i%)
1751 NEXT
1752 FOR i%=0 TO 0
1753 PRINT#3,sk.piece.h%(i%)
1754 NEXT
1755 FOR i%=0 TO 0
1756 PRINT#3,sk.order%(i%)
1757 NEXT
1758 FOR i%=0 TO 0
1759 PRINT#3,sk.flag.first%(i%)
1760 NEXT
1761 FOR i%=0 TO 0
1762 PRINT#3,sk.flag.columns%(i%)
1763 NEXT
1764 FOR i%=0 TO 0
1765 PRINT#3,sk.flag.w%(i%)
1766 NEXT
1767 FOR i%=0 TO 0
1768 PRINT#3,sk.flag.h%(i%)
1769 NEXT
1770 FOR i%=0 TO 0
1771 PRINT#3,sk.start.x!(i%)
1772 NEXT
1773 FOR i%=0 TO 0
1774 PRINT#3,sk.start.y!(i%)
1775 NEXT
1776 FOR i%=0 TO 0
1777 PRINT#3,sk.path.first%(i%)
1778 NEXT
1779 FOR i%=0 TO 0
1780 PRINT#3,sk.path.count%(i%)
1781 NEXT
1782 FOR i%=0 TO 0
1783 PRINT#3,sk.path.repeat%(i%)
1784 NEXT
1785 RETURN
1786 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1787 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1788 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1789 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1790 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1791 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1792 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1793 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1794 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1795 DATA 1
1796 DATA 1
1797 DATA 8
1798 DATA 8
1799 DATA 8
1800 DATA 8
1801 DATA 8
1802 DATA 8
1803 DATA 0
1804 DATA 1
1805 DATA 1
1806 DATA 1
1807 DATA 0
1808 DATA 0
1809 DATA 1
1810 DATA 0
1811 DATA 0
1812 DATA 0
1813 DATA 0
1814 DATA 1
1815 DATA 1
1816 DATA 0
1817 DATA 0
1818 DATA 1
1819 DATA 0
1820 DATA 0
1821 DATA 0
1822 DATA 0
1823 DATA 8
1824 DATA 8
1825 DATA 0
1826 DATA -1
1827 DATA 0
1828 DATA 1
1829 DATA 1
1830 DATA 0
1831 DATA 0
1832 DATA 0
1833 DATA 0
1834 DATA 0
1835 END
