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
1133 GOSUB 1643
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
1155 RESTORE 1784
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
1286 GOSUB 1629
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
1309 GOSUB 1474
1310 NEXT
1311 FOR i%=0 TO sk.actors%-1
1312 sk.actor.face%(i%)=sk.start.face%(i%)
1313 sk.actor.does%(i%)=sk.start.does%(i%)
1314 sk.actor.shows%(i%)=-1
1315 i2%=i%
1316 GOSUB 1412
1317 NEXT
1318 FOR i%=1 TO sk.movers%-1
1319 m%=i%
1320 GOSUB 1402
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
1335 GOSUB 1363
1336 NEXT
1337 GOSUB 1513
1338 RETURN
1339 sk.tick!=sk.tick!+1
1340 x!=sk.mover.x!(0)
1341 y!=sk.mover.y!(0)
1342 m2%=0
1343 GOSUB 1368
1344 u!=sk.mover.x!(0)-x!
1345 v!=sk.mover.y!(0)-y!
1346 GOSUB 1438
1347 FOR i%=0 TO sk.planes%-1
1348 i3%=i%
1349 GOSUB 1461
1350 NEXT
1351 FOR i%=0 TO sk.actors%-1
1352 i2%=i%
1353 GOSUB 1428
1354 m2%=i%+1
1355 GOSUB 1368
1356 NEXT
1357 FOR i%=0 TO sk.covers%-1
1358 i2%=i%
1359 GOSUB 1363
1360 NEXT
1361 GOSUB 1487
1362 RETURN
1363 IF sk.tick!<sk.cover.tick%(i2%) THEN 1367
1364 IF sk.cover.used%(i2%)>=sk.cover.ticks%(i2%) THEN 1367
1365 sk.cover.used%(i2%)=sk.cover.used%(i2%)+1
1366 sk.cover.done%(i2%)=sk.cover.count%(sk.cover.begin%(i2%)+sk.cover.used%(i2%))
1367 RETURN
1368 s2!=sk.mover.segment%(m2%)
1369 IF s2!>=0 THEN 1371
1370 RETURN
1371 s2!=sk.path.first%(m2%)+s2!
1372 sk.mover.x!(m2%)=sk.mover.x!(m2%)+sk.segment.x%(s2!)
1373 sk.mover.part.x%(m2%)=sk.mover.part.x%(m2%)+sk.segment.part.x%(s2!)
1374 IF sk.mover.part.x%(m2%)<sk.segment.parts.x%(s2!) THEN 1377
1375 sk.mover.part.x%(m2%)=sk.mover.part.x%(m2%)-sk.segment.parts.x%(s2!)
1376 sk.mover.x!(m2%)=sk.mover.x!(m2%)+1
1377 sk.mover.y!(m2%)=sk.mover.y!(m2%)+sk.segment.y%(s2!)
1378 sk.mover.part.y%(m2%)=sk.mover.part.y%(m2%)+sk.segment.part.y%(s2!)
1379 IF sk.mover.part.y%(m2%)<sk.segment.parts.y%(s2!) THEN 1382
1380 sk.mover.part.y%(m2%)=sk.mover.part.y%(m2%)-sk.segment.parts.y%(s2!)
1381 sk.mover.y!(m2%)=sk.mover.y!(m2%)+1
1382 sk.mover.used%(m2%)=sk.mover.used%(m2%)+1
1383 IF sk.mover.used%(m2%)<>sk.segment.ticks%(s2!) THEN 1386
1384 m3%=m2%
1385 GOSUB 1387
1386 RETURN
1387 sk.mover.used%(m3%)=0
1388 sk.mover.part.x%(m3%)=0
1389 sk.mover.part.y%(m3%)=0
1390 sk.mover.segment%(m3%)=sk.mover.segment%(m3%)+1
1391 IF sk.mover.segment%(m3%)<>sk.path.count%(m3%) THEN 1398
1392 sk.mover.segment%(m3%)=0
1393 IF sk.path.repeat%(m3%)<>0 THEN 1395
1394 sk.mover.segment%(m3%)=-1
1395 IF sk.path.repeat%(m3%)<>1 THEN 1398
1396 sk.mover.x!(m3%)=sk.start.x!(m3%)
1397 sk.mover.y!(m3%)=sk.start.y!(m3%)
1398 IF m3%<=0 THEN 1401
1399 m%=m3%
1400 GOSUB 1402
1401 RETURN
1402 IF sk.mover.segment%(m%)>=0 THEN 1404
1403 RETURN
1404 s3!=sk.path.first%(m%)+sk.mover.segment%(m%)
1405 IF sk.segment.does%(s3!)<0 THEN 1407
1406 sk.actor.does%(m%-1)=sk.segment.does%(s3!)
1407 IF sk.segment.face%(s3!)<0 THEN 1409
1408 sk.actor.face%(m%-1)=sk.segment.face%(s3!)
1409 i2%=m%-1
1410 GOSUB 1412
1411 RETURN
1412 n%=sk.look%(sk.actor.look%(i2%)+4*sk.actor.does%(i2%)+sk.actor.face%(i2%))
1413 sk.actor.flip%(i2%)=(n%-4*INT(n%/4))
1414 n%=INT(n%/4)
1415 IF n%=sk.actor.shows%(i2%) THEN 1419
1416 sk.actor.shows%(i2%)=n%
1417 sk.actor.step%(i2%)=0
1418 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%))
1419 RETURN
1420 sk.actor.does%(i%)=n2%
1421 i2%=i%
1422 GOSUB 1412
1423 RETURN
1424 sk.actor.face%(i%)=f%
1425 i2%=i%
1426 GOSUB 1412
1427 RETURN
1428 n%=sk.actor.shows%(i2%)
1429 sk.actor.left%(i2%)=sk.actor.left%(i2%)-1
1430 IF sk.actor.left%(i2%)<>0 THEN 1437
1431 sk.actor.step%(i2%)=sk.actor.step%(i2%)+1
1432 IF sk.actor.step%(i2%)<>sk.animation.count%(n%) THEN 1436
1433 sk.actor.step%(i2%)=0
1434 IF sk.animation.again%(n%)<>0 THEN 1436
1435 sk.actor.step%(i2%)=sk.animation.count%(n%)-1
1436 sk.actor.left%(i2%)=sk.step.ticks%(sk.animation.first%(n%)+sk.actor.step%(i2%))
1437 RETURN
1438 FOR i3%=0 TO sk.planes%-1
1439 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.x%(i3%)*u!
1440 IF sk.plane.part.x!(i3%)>=0 THEN 1444
1441 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)+sk.ratio.parts.x%(i3%)
1442 sk.plane.x!(i3%)=sk.plane.x!(i3%)-1
1443 GOTO 1440
1444 IF sk.plane.part.x!(i3%)<sk.ratio.parts.x%(i3%) THEN 1448
1445 sk.plane.part.x!(i3%)=sk.plane.part.x!(i3%)-sk.ratio.parts.x%(i3%)
1446 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1447 GOTO 1444
1448 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.y%(i3%)*v!
1449 IF sk.plane.part.y!(i3%)>=0 THEN 1453
1450 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)+sk.ratio.parts.y%(i3%)
1451 sk.plane.y!(i3%)=sk.plane.y!(i3%)-1
1452 GOTO 1449
1453 IF sk.plane.part.y!(i3%)<sk.ratio.parts.y%(i3%) THEN 1457
1454 sk.plane.part.y!(i3%)=sk.plane.part.y!(i3%)-sk.ratio.parts.y%(i3%)
1455 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1456 GOTO 1453
1457 i2%=i3%
1458 GOSUB 1474
1459 NEXT
1460 RETURN
1461 sk.plane.x!(i3%)=sk.plane.x!(i3%)+sk.drift.x%(i3%)
1462 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)+sk.drift.step.x%(i3%)
1463 IF sk.drift.part.x%(i3%)<sk.drift.parts.x%(i3%) THEN 1466
1464 sk.drift.part.x%(i3%)=sk.drift.part.x%(i3%)-sk.drift.parts.x%(i3%)
1465 sk.plane.x!(i3%)=sk.plane.x!(i3%)+1
1466 sk.plane.y!(i3%)=sk.plane.y!(i3%)+sk.drift.y%(i3%)
1467 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)+sk.drift.step.y%(i3%)
1468 IF sk.drift.part.y%(i3%)<sk.drift.parts.y%(i3%) THEN 1471
1469 sk.drift.part.y%(i3%)=sk.drift.part.y%(i3%)-sk.drift.parts.y%(i3%)
1470 sk.plane.y!(i3%)=sk.plane.y!(i3%)+1
1471 i2%=i3%
1472 GOSUB 1474
1473 RETURN
1474 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)>=0 THEN 1477
1475 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)-sk.plane.w%(i2%)
1476 GOTO 1474
1477 IF sk.plane.x!(i2%)-sk.wrap.base.x!(i2%)<sk.plane.w%(i2%) THEN 1480
1478 sk.wrap.base.x!(i2%)=sk.wrap.base.x!(i2%)+sk.plane.w%(i2%)
1479 GOTO 1477
1480 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)>=0 THEN 1483
1481 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)-sk.plane.h%(i2%)
1482 GOTO 1480
1483 IF sk.plane.y!(i2%)-sk.wrap.base.y!(i2%)<sk.plane.h%(i2%) THEN 1486
1484 sk.wrap.base.y!(i2%)=sk.wrap.base.y!(i2%)+sk.plane.h%(i2%)
1485 GOTO 1483
1486 RETURN
1487 changed%=0
1488 FOR i2%=0 TO sk.cycles%-1
1489 sk.cycle.left%(i2%)=sk.cycle.left%(i2%)-1
1490 IF sk.cycle.left%(i2%)<>0 THEN 1494
1491 i3%=i2%
1492 GOSUB 1505
1493 changed%=1
1494 NEXT
1495 FOR i2%=0 TO sk.events%-1
1496 IF sk.event.done%(i2%)>=sk.event.steps%(i2%) THEN 1501
1497 IF sk.tick!<sk.event.next!(i2%) THEN 1501
1498 sk.event.done%(i2%)=sk.event.done%(i2%)+1
1499 sk.event.next!(i2%)=sk.event.next!(i2%)+sk.event.wait%(i2%)
1500 changed%=1
1501 NEXT
1502 IF changed%<>1 THEN 1504
1503 GOSUB 1513
1504 RETURN
1505 sk.cycle.left%(i3%)=sk.cycle.ticks%(i3%)
1506 sk.cycle.turn%(i3%)=((sk.cycle.turn%(i3%)+1)-sk.cycle.period%(i3%)*INT((sk.cycle.turn%(i3%)+1)/sk.cycle.period%(i3%)))
1507 sk.cycle.shift%(i3%)=sk.cycle.turn%(i3%)
1508 IF sk.cycle.turn%(i3%)<sk.cycle.count%(i3%) THEN 1510
1509 sk.cycle.shift%(i3%)=sk.cycle.period%(i3%)-sk.cycle.turn%(i3%)
1510 IF sk.cycle.back%(i3%)<>1 THEN 1512
1511 sk.cycle.shift%(i3%)=((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1512 RETURN
1513 FOR i3%=0 TO sk.cycles%-1
1514 FOR j%=0 TO sk.cycle.count%(i3%)-1
1515 sk.now%(sk.cycle.first%(i3%)+j%)=sk.cycle.first%(i3%)+((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))-sk.cycle.count%(i3%)*INT((j%+sk.cycle.count%(i3%)-sk.cycle.shift%(i3%))/sk.cycle.count%(i3%)))
1516 NEXT
1517 NEXT
1518 FOR i3%=0 TO sk.events%-1
1519 IF sk.event.done%(i3%)<=0 THEN 1523
1520 FOR j%=0 TO sk.event.count%(i3%)-1
1521 sk.now%(sk.event.entry%(sk.event.first%(i3%)+j%))=sk.event.colour%(i3%)+(sk.event.done%(i3%)-1)*sk.event.count%(i3%)+j%
1522 NEXT
1523 NEXT
1524 RETURN
1525 sk.pose.x!=sk.mover.x!(i%+1)
1526 sk.pose.y!=sk.mover.y!(i%+1)
1527 IF sk.actor.plane%(i%)<0 THEN 1530
1528 sk.pose.x!=sk.pose.x!-sk.plane.x!(sk.actor.plane%(i%))
1529 sk.pose.y!=sk.pose.y!-sk.plane.y!(sk.actor.plane%(i%))
1530 n%=sk.animation.first%(sk.actor.shows%(i%))+sk.actor.step%(i%)
1531 sk.pose.frame%=sk.step.frame%(n%)
1532 sk.pose.flip%=(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))-2*INT(((sk.step.flip%(n%)-2*INT(sk.step.flip%(n%)/2))+(sk.actor.flip%(i%)-2*INT(sk.actor.flip%(i%)/2)))/2))
1533 sk.pose.flip%=sk.pose.flip%+((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))-2*INT((INT(sk.step.flip%(n%)/2)+INT(sk.actor.flip%(i%)/2))/2))*2
1534 RETURN
1535 i%=i2%
1536 GOSUB 1525
1537 sk.hit.wide%=sk.hit.w%(sk.pose.frame%)
1538 sk.hit.high%=sk.hit.h%(sk.pose.frame%)
1539 sk.hit.left!=sk.pose.x!+sk.hit.x%(sk.pose.frame%)
1540 IF (sk.pose.flip%-2*INT(sk.pose.flip%/2))<>1 THEN 1542
1541 sk.hit.left!=sk.pose.x!-sk.hit.x%(sk.pose.frame%)-sk.hit.wide%+1
1542 sk.hit.top!=sk.pose.y!+sk.hit.y%(sk.pose.frame%)
1543 IF INT(sk.pose.flip%/2)<>1 THEN 1545
1544 sk.hit.top!=sk.pose.y!-sk.hit.y%(sk.pose.frame%)-sk.hit.high%+1
1545 RETURN
1546 sk.touching%=0
1547 i2%=i3%
1548 GOSUB 1535
1549 x!=sk.hit.left!
1550 y!=sk.hit.top!
1551 w%=sk.hit.wide%
1552 h%=sk.hit.high%
1553 i2%=j%
1554 GOSUB 1535
1555 IF w%=0 THEN 1557
1556 IF sk.hit.wide%<>0 THEN 1558
1557 RETURN
1558 IF x!>=sk.hit.left!+sk.hit.wide% THEN 1563
1559 IF sk.hit.left!>=x!+w% THEN 1563
1560 IF y!>=sk.hit.top!+sk.hit.high% THEN 1563
1561 IF sk.hit.top!>=y!+h% THEN 1563
1562 sk.touching%=1
1563 RETURN
1564 sk.flags%=0
1565 IF sk.flag.first%(p%)>=0 THEN 1567
1566 RETURN
1567 IF sk.wrap.x%(p%)<>1 THEN 1572
1568 IF x!>=0 THEN 1571
1569 x!=x!+sk.plane.w%(p%)
1570 GOTO 1568
1571 x!=(x!-sk.plane.w%(p%)*INT(x!/sk.plane.w%(p%)))
1572 IF sk.wrap.y%(p%)<>1 THEN 1577
1573 IF y!>=0 THEN 1576
1574 y!=y!+sk.plane.h%(p%)
1575 GOTO 1573
1576 y!=(y!-sk.plane.h%(p%)*INT(y!/sk.plane.h%(p%)))
1577 IF x!<0 THEN 1581
1578 IF y!<0 THEN 1581
1579 IF x!>=sk.plane.w%(p%) THEN 1581
1580 IF y!<sk.plane.h%(p%) THEN 1582
1581 RETURN
1582 p2%=p%
1583 n%=INT(y!/sk.flag.h%(p%))*sk.flag.columns%(p%)+INT(x!/sk.flag.w%(p%))
1584 GOSUB 1641
1585 RETURN
1586 PRINT#3,sk.tick!
1587 PRINT#3,sk.mover.x!(0)
1588 PRINT#3,sk.mover.y!(0)
1589 FOR i4%=0 TO sk.planes%-1
1590 PRINT#3,sk.plane.x!(i4%)
1591 PRINT#3,sk.plane.y!(i4%)
1592 NEXT
1593 FOR i4%=0 TO sk.actors%-1
1594 PRINT#3,sk.mover.x!(i4%+1)
1595 PRINT#3,sk.mover.y!(i4%+1)
1596 n2%=sk.animation.first%(sk.actor.shows%(i4%))+sk.actor.step%(i4%)
1597 PRINT#3,sk.step.frame%(n2%)
1598 PRINT#3,sk.actor.flip%(i4%)
1599 NEXT
1600 FOR i4%=0 TO sk.actors%-1
1601 i2%=i4%
1602 GOSUB 1535
1603 PRINT#3,sk.hit.left!
1604 PRINT#3,sk.hit.top!
1605 PRINT#3,sk.hit.wide%
1606 PRINT#3,sk.hit.high%
1607 IF i4%<=0 THEN 1612
1608 i3%=i4%-1
1609 j%=i4%
1610 GOSUB 1546
1611 PRINT#3,sk.touching%
1612 IF sk.actor.plane%(i4%)<0 THEN 1618
1613 p%=sk.actor.plane%(i4%)
1614 x!=sk.mover.x!(i4%+1)
1615 y!=sk.mover.y!(i4%+1)+1
1616 GOSUB 1564
1617 PRINT#3,sk.flags%
1618 NEXT
1619 FOR i4%=0 TO sk.covers%-1
1620 PRINT#3,sk.cover.done%(i4%)
1621 NEXT
1622 FOR i4%=0 TO sk.moving%-1
1623 n2%=sk.now%(sk.moving.entry%(i4%))
1624 PRINT#3,sk.red%(n2%)
1625 PRINT#3,sk.green%(n2%)
1626 PRINT#3,sk.blue%(n2%)
1627 NEXT
1628 RETURN
1629 FOR i2%=0 TO sk.entries%-1
1630 sk.now%(i2%)=i2%
1631 NEXT
1632 RETURN
1633 u2!=x!-sk.mover.x!(0)
1634 v2!=y!-sk.mover.y!(0)
1635 sk.mover.x!(0)=x!
1636 sk.mover.y!(0)=y!
1637 u!=u2!
1638 v!=v2!
1639 GOSUB 1438
1640 RETURN
1641 sk.flags%=sk.flag.cell%(sk.flag.first%(p2%)+n%)
1642 RETURN
1643 OPEN "said.txt" FOR OUTPUT AS 3
1644 GOSUB 1654
1645 IF s!<0 THEN 1652
1646 IF sk.tick!>=s! THEN 1649
1647 GOSUB 1339
1648 GOTO 1646
1649 GOSUB 1586
1650 s!=-1:IF NOT EOF(2) THEN INPUT#2,s!
1651 GOTO 1645
1652 CLOSE 3
1653 RETURN
1654 FOR i%=0 TO 255
1655 PRINT#3,sk.red%(i%)
1656 NEXT
1657 FOR i%=0 TO 255
1658 PRINT#3,sk.green%(i%)
1659 NEXT
1660 FOR i%=0 TO 255
1661 PRINT#3,sk.blue%(i%)
1662 NEXT
1663 FOR i%=0 TO 0
1664 PRINT#3,sk.plane.columns%(i%)
1665 NEXT
1666 FOR i%=0 TO 0
1667 PRINT#3,sk.plane.rows%(i%)
1668 NEXT
1669 FOR i%=0 TO 0
1670 PRINT#3,sk.tile.w%(i%)
1671 NEXT
1672 FOR i%=0 TO 0
1673 PRINT#3,sk.tile.h%(i%)
1674 NEXT
1675 FOR i%=0 TO 0
1676 PRINT#3,sk.last.w%(i%)
1677 NEXT
1678 FOR i%=0 TO 0
1679 PRINT#3,sk.last.h%(i%)
1680 NEXT
1681 FOR i%=0 TO 0
1682 PRINT#3,sk.plane.w%(i%)
1683 NEXT
1684 FOR i%=0 TO 0
1685 PRINT#3,sk.plane.h%(i%)
1686 NEXT
1687 FOR i%=0 TO 0
1688 PRINT#3,sk.map.first%(i%)
1689 NEXT
1690 FOR i%=0 TO 0
1691 PRINT#3,sk.wrap.x%(i%)
1692 NEXT
1693 FOR i%=0 TO 0
1694 PRINT#3,sk.ratio.x%(i%)
1695 NEXT
1696 FOR i%=0 TO 0
1697 PRINT#3,sk.ratio.parts.x%(i%)
1698 NEXT
1699 FOR i%=0 TO 0
1700 PRINT#3,sk.drift.x%(i%)
1701 NEXT
1702 FOR i%=0 TO 0
1703 PRINT#3,sk.drift.step.x%(i%)
1704 NEXT
1705 FOR i%=0 TO 0
1706 PRINT#3,sk.drift.parts.x%(i%)
1707 NEXT
1708 FOR i%=0 TO 0
1709 PRINT#3,sk.plane.start.x!(i%)
1710 NEXT
1711 FOR i%=0 TO 0
1712 PRINT#3,sk.plane.start.part.x%(i%)
1713 NEXT
1714 FOR i%=0 TO 0
1715 PRINT#3,sk.start.base.x!(i%)
1716 NEXT
1717 FOR i%=0 TO 0
1718 PRINT#3,sk.wrap.y%(i%)
1719 NEXT
1720 FOR i%=0 TO 0
1721 PRINT#3,sk.ratio.y%(i%)
1722 NEXT
1723 FOR i%=0 TO 0
1724 PRINT#3,sk.ratio.parts.y%(i%)
1725 NEXT
1726 FOR i%=0 TO 0
1727 PRINT#3,sk.drift.y%(i%)
1728 NEXT
1729 FOR i%=0 TO 0
1730 PRINT#3,sk.drift.step.y%(i%)
1731 NEXT
1732 FOR i%=0 TO 0
1733 PRINT#3,sk.drift.parts.y%(i%)
1734 NEXT
1735 FOR i%=0 TO 0
1736 PRINT#3,sk.plane.start.y!(i%)
1737 NEXT
1738 FOR i%=0 TO 0
1739 PRINT#3,sk.plane.start.part.y%(i%)
1740 NEXT
1741 FOR i%=0 TO 0
1742 PRINT#3,sk.start.base.y!(i%)
1743 NEXT
1744 FOR i%=0 TO 0
1745 PRINT#3,sk.map.cell%(i%)
1746 NEXT
1747 FOR i%=0 TO 0
1748 PRINT#3,sk.piece.w%(i%)
1749 NEXT
1750 FOR i%=0 TO 0
1751 PRINT#3,sk.piece.h%(i%)
1752 NEXT
1753 FOR i%=0 TO 0
1754 PRINT#3,sk.order%(i%)
1755 NEXT
1756 FOR i%=0 TO 0
1757 PRINT#3,sk.flag.first%(i%)
1758 NEXT
1759 FOR i%=0 TO 0
1760 PRINT#3,sk.flag.columns%(i%)
1761 NEXT
1762 FOR i%=0 TO 0
1763 PRINT#3,sk.flag.w%(i%)
1764 NEXT
1765 FOR i%=0 TO 0
1766 PRINT#3,sk.flag.h%(i%)
1767 NEXT
1768 FOR i%=0 TO 0
1769 PRINT#3,sk.start.x!(i%)
1770 NEXT
1771 FOR i%=0 TO 0
1772 PRINT#3,sk.start.y!(i%)
1773 NEXT
1774 FOR i%=0 TO 0
1775 PRINT#3,sk.path.first%(i%)
1776 NEXT
1777 FOR i%=0 TO 0
1778 PRINT#3,sk.path.count%(i%)
1779 NEXT
1780 FOR i%=0 TO 0
1781 PRINT#3,sk.path.repeat%(i%)
1782 NEXT
1783 RETURN
1784 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1785 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1786 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1787 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1788 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1789 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1790 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1791 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1792 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1793 DATA 1
1794 DATA 1
1795 DATA 8
1796 DATA 8
1797 DATA 8
1798 DATA 8
1799 DATA 8
1800 DATA 8
1801 DATA 0
1802 DATA 1
1803 DATA 1
1804 DATA 1
1805 DATA 0
1806 DATA 0
1807 DATA 1
1808 DATA 0
1809 DATA 0
1810 DATA 0
1811 DATA 0
1812 DATA 1
1813 DATA 1
1814 DATA 0
1815 DATA 0
1816 DATA 1
1817 DATA 0
1818 DATA 0
1819 DATA 0
1820 DATA 0
1821 DATA 8
1822 DATA 8
1823 DATA 0
1824 DATA -1
1825 DATA 0
1826 DATA 1
1827 DATA 1
1828 DATA 0
1829 DATA 0
1830 DATA 0
1831 DATA 0
1832 DATA 0
1833 END
