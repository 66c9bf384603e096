1000 REM tiny: scene tiny for target t, written by scenekit
1001 REM Planes: 0 dot.
1002 REM No drawing: the dialect cannot draw; it checks tables and
1003 REM scene arithmetic.
1004 REM Routines for your program:
1005 REM   GOSUB 1084: first of all: reads the tables,
1006 REM   opens the display, loads the art
1007 REM   GOSUB 1236: puts everything to tick 0
1008 REM   GOSUB 1300: goes on by one tick: camera, planes,
1009 REM   sprites, animations, palette
1010 REM   set G9 to x, H1 to y, then GOSUB 1597:
1011 REM   moves the camera
1012 REM   set B1 to i, then GOSUB 1388: takes a sprite,
1013 REM   or with -1 the camera, off its path, for you to move
1014 REM   set B4 to i, B5 to f, then GOSUB 1396: turns a
1015 REM   sprite
1016 REM   set B2 to i, B3 to n, then GOSUB 1391: gives a
1017 REM   sprite another animation
1018 REM   set B7 to i, then GOSUB 1401: plays one
1019 REM   sprite's animation on
1020 REM   set C1 to i, then GOSUB 1487: turns one
1021 REM   cycle
1022 REM   set E9 to i, then GOSUB 1535: finds a
1023 REM   sprite's hit box in the view: hit_left, hit_top, hit_wide,
1024 REM   hit_high
1025 REM   set F5 to i, G0 to j, then GOSUB 1548: finds
1026 REM   whether two sprites' hit boxes overlap: touching
1027 REM   set G2 to p, G3 to x, G4 to y, then GOSUB
1028 REM   1568: finds the flags of the map cell at a
1029 REM   pixel of a plane: flags
1030 REM Names it uses:
1031 REM   tick A, page B, view_w C, view_h E, transparent F,
1032 REM   backdrop G, clear_first H, entries I, moving J, pieces K,
1033 REM   planes L, actors M, movers N, cycles O, events P, covers
1034 REM   Q, order_count R, ticks_per_update S, pages U, spare1 C2,
1035 REM   spare2 C3, spare3 C6, spare4 C7, pose_x C8, pose_y E0,
1036 REM   pose_frame E2, pose_flip E3, spare5 E4, spare6 E5, spare7
1037 REM   E6, spare8 E7, spare9 E8, hit_wide F0, hit_high F1,
1038 REM   hit_left F2, hit_top F3, touching F4, flags G1, red D,
1039 REM   green D(16), blue D(32), moving_entry D(48), cycle_first
1040 REM   D(49), cycle_count D(50), cycle_ticks D(51), cycle_period
1041 REM   D(52), cycle_back D(53), event_tick D(54), event_steps
1042 REM   D(55), event_wait D(56), event_first D(57), event_count
1043 REM   D(58), event_colour D(59), event_entry D(60), cover_tick
1044 REM   D(61), cover_ticks D(62), cover_opens D(63), cover_entry
1045 REM   D(64), cover_columns D(65), cover_cells D(66), cover_w
1046 REM   D(67), cover_h D(68), cover_first D(69), cover_begin
1047 REM   D(70), cover_cell D(71), cover_count D(72), plane_columns
1048 REM   D(73), plane_rows D(74), tile_w D(75), tile_h D(76),
1049 REM   last_w D(77), last_h D(78), plane_w D(79), plane_h D(80),
1050 REM   map_first D(81), wrap_x D(82), ratio_x D(83),
1051 REM   ratio_parts_x D(84), drift_x D(85), drift_step_x D(86),
1052 REM   drift_parts_x D(87), plane_start_x D(88),
1053 REM   plane_start_part_x D(89), start_base_x D(90), wrap_y
1054 REM   D(91), ratio_y D(92), ratio_parts_y D(93), drift_y D(94),
1055 REM   drift_step_y D(95), drift_parts_y D(96), plane_start_y
1056 REM   D(97), plane_start_part_y D(98), start_base_y D(99),
1057 REM   map_cell D(100), piece_w D(101), piece_h D(102), order
1058 REM   D(103), flag_first D(104), flag_columns D(105), flag_w
1059 REM   D(106), flag_h D(107), flag_cell D(108), frame_cell
1060 REM   D(109), frame_x D(110), frame_y D(111), pivot_x D(112),
1061 REM   pivot_y D(113), hit_x D(114), hit_y D(115), hit_w D(116),
1062 REM   hit_h D(117), animation_first D(118), animation_count
1063 REM   D(119), animation_again D(120), step_frame D(121),
1064 REM   step_ticks D(122), step_flip D(123), look D(124), start_x
1065 REM   D(125), start_y D(126), path_first D(127), path_count
1066 REM   D(128), path_repeat D(129), segment_ticks D(130),
1067 REM   segment_x D(131), segment_part_x D(132), segment_parts_x
1068 REM   D(133), segment_y D(134), segment_part_y D(135),
1069 REM   segment_parts_y D(136), segment_does D(137), segment_face
1070 REM   D(138), actor_look D(139), actor_plane D(140), start_does
1071 REM   D(141), start_face D(142), mover_x D(143), mover_y D(144),
1072 REM   mover_part_x D(145), mover_part_y D(146), mover_used
1073 REM   D(147), mover_segment D(148), plane_x D(149), plane_y
1074 REM   D(150), plane_part_x D(151), plane_part_y D(152),
1075 REM   drift_part_x D(153), drift_part_y D(154), wrap_base_x
1076 REM   D(155), wrap_base_y D(156), actor_does D(157), actor_face
1077 REM   D(158), actor_shows D(159), actor_flip D(160), actor_step
1078 REM   D(161), actor_left D(162), cycle_shift D(163), cycle_left
1079 REM   D(164), cycle_turn D(165), cover_used D(166), cover_done
1080 REM   D(167), event_done D(168), event_next D(169), now D(170),
1081 REM   shown D(186).
1082 DIM D(201)
1083 REM Reads the tables, opens the display and loads the art.
1084 LET A=0
1085 LET B=0
1086 LET C=16
1087 LET E=8
1088 LET F=0
1089 LET G=3
1090 LET H=1
1091 LET I=16
1092 LET J=0
1093 LET K=1
1094 LET L=1
1095 LET M=0
1096 LET N=1
1097 LET O=0
1098 LET P=0
1099 LET Q=0
1100 LET R=1
1101 LET S=1
1102 RESTORE
1103 FOR T=0 TO 15
1104 READ D(T)
1105 NEXT T
1106 FOR T=0 TO 15
1107 READ D(16+T)
1108 NEXT T
1109 FOR T=0 TO 15
1110 READ D(32+T)
1111 NEXT T
1112 FOR T=0 TO 0
1113 READ D(73+T)
1114 NEXT T
1115 FOR T=0 TO 0
1116 READ D(74+T)
1117 NEXT T
1118 FOR T=0 TO 0
1119 READ D(75+T)
1120 NEXT T
1121 FOR T=0 TO 0
1122 READ D(76+T)
1123 NEXT T
1124 FOR T=0 TO 0
1125 READ D(77+T)
1126 NEXT T
1127 FOR T=0 TO 0
1128 READ D(78+T)
1129 NEXT T
1130 FOR T=0 TO 0
1131 READ D(79+T)
1132 NEXT T
1133 FOR T=0 TO 0
1134 READ D(80+T)
1135 NEXT T
1136 FOR T=0 TO 0
1137 READ D(81+T)
1138 NEXT T
1139 FOR T=0 TO 0
1140 READ D(82+T)
1141 NEXT T
1142 FOR T=0 TO 0
1143 READ D(83+T)
1144 NEXT T
1145 FOR T=0 TO 0
1146 READ D(84+T)
1147 NEXT T
1148 FOR T=0 TO 0
1149 READ D(85+T)
1150 NEXT T
1151 FOR T=0 TO 0
1152 READ D(86+T)
1153 NEXT T
1154 FOR T=0 TO 0
1155 READ D(87+T)
1156 NEXT T
1157 FOR T=0 TO 0
1158 READ D(88+T)
1159 NEXT T
1160 FOR T=0 TO 0
1161 READ D(89+T)
1162 NEXT T
1163 FOR T=0 TO 0
1164 READ D(90+T)
1165 NEXT T
1166 FOR T=0 TO 0
1167 READ D(91+T)
1168 NEXT T
1169 FOR T=0 TO 0
1170 READ D(92+T)
1171 NEXT T
1172 FOR T=0 TO 0
1173 READ D(93+T)
1174 NEXT T
1175 FOR T=0 TO 0
1176 READ D(94+T)
1177 NEXT T
1178 FOR T=0 TO 0
1179 READ D(95+T)
1180 NEXT T
1181 FOR T=0 TO 0
1182 READ D(96+T)
1183 NEXT T
1184 FOR T=0 TO 0
1185 READ D(97+T)
1186 NEXT T
1187 FOR T=0 TO 0
1188 READ D(98+T)
1189 NEXT T
1190 FOR T=0 TO 0
1191 READ D(99+T)
1192 NEXT T
1193 FOR T=0 TO 0
1194 READ D(100+T)
1195 NEXT T
1196 FOR T=0 TO 0
1197 READ D(101+T)
1198 NEXT T
1199 FOR T=0 TO 0
1200 READ D(102+T)
1201 NEXT T
1202 FOR T=0 TO 0
1203 READ D(103+T)
1204 NEXT T
1205 FOR T=0 TO 0
1206 READ D(104+T)
1207 NEXT T
1208 FOR T=0 TO 0
1209 READ D(105+T)
1210 NEXT T
1211 FOR T=0 TO 0
1212 READ D(106+T)
1213 NEXT T
1214 FOR T=0 TO 0
1215 READ D(107+T)
1216 NEXT T
1217 FOR T=0 TO 0
1218 READ D(125+T)
1219 NEXT T
1220 FOR T=0 TO 0
1221 READ D(126+T)
1222 NEXT T
1223 FOR T=0 TO 0
1224 READ D(127+T)
1225 NEXT T
1226 FOR T=0 TO 0
1227 READ D(128+T)
1228 NEXT T
1229 FOR T=0 TO 0
1230 READ D(129+T)
1231 NEXT T
1232 LET U=2
1233 GOSUB 1591
1234 RETURN
1235 REM Puts everything to where it is at tick 0.
1236 GOSUB 1240
1237 RETURN
1238 REM Puts camera, planes, sprites and colours to where they are
1239 REM at tick 0; values stay.
1240 LET A=0
1241 IF N-1<0 THEN 1252
1242 FOR V=0 TO N-1
1243 LET D(143+V)=D(125+V)
1244 LET D(144+V)=D(126+V)
1245 LET D(145+V)=0
1246 LET D(146+V)=0
1247 LET D(147+V)=0
1248 LET D(148+V)=0
1249 IF D(128+V)<>0 THEN 1251
1250 LET D(148+V)=-1
1251 NEXT V
1252 IF L-1<0 THEN 1265
1253 FOR V=0 TO L-1
1254 LET D(149+V)=D(88+V)
1255 LET D(150+V)=D(97+V)
1256 LET D(151+V)=D(89+V)
1257 LET D(152+V)=D(98+V)
1258 LET D(153+V)=0
1259 LET D(154+V)=0
1260 LET D(155+V)=D(90+V)
1261 LET D(156+V)=D(99+V)
1262 LET W=V
1263 GOSUB 1452
1264 NEXT V
1265 IF M-1<0 THEN 1273
1266 FOR V=0 TO M-1
1267 LET D(158+V)=D(142+V)
1268 LET D(157+V)=D(141+V)
1269 LET D(159+V)=-1
1270 LET X=V
1271 GOSUB 1378
1272 NEXT V
1273 IF N-1<1 THEN 1278
1274 FOR V=1 TO N-1
1275 LET Y=V
1276 GOSUB 1366
1277 NEXT V
1278 IF O-1<0 THEN 1284
1279 FOR V=0 TO O-1
1280 LET D(163+V)=0
1281 LET D(165+V)=0
1282 LET D(164+V)=D(51+V)
1283 NEXT V
1284 IF P-1<0 THEN 1289
1285 FOR V=0 TO P-1
1286 LET D(168+V)=0
1287 LET D(169+V)=D(54+V)
1288 NEXT V
1289 IF Q-1<0 THEN 1296
1290 FOR V=0 TO Q-1
1291 LET D(166+V)=0
1292 LET D(167+V)=0
1293 LET Z=V
1294 GOSUB 1322
1295 NEXT V
1296 GOSUB 1499
1297 RETURN
1298 REM One tick: camera, planes, sprites, animations and palette go
1299 REM on.
1300 LET A=A+1
1301 LET A0=D(143)
1302 LET A1=D(144)
1303 LET A2=0
1304 GOSUB 1329
1305 LET A3=D(143)-A0
1306 LET A4=D(144)-A1
1307 GOSUB 1412
1308 IF L-1<0 THEN 1313
1309 FOR A5=0 TO L-1
1310 LET A6=A5
1311 GOSUB 1437
1312 NEXT A5
1313 GOSUB 1609
1314 IF Q-1<0 THEN 1319
1315 FOR A5=0 TO Q-1
1316 LET Z=A5
1317 GOSUB 1322
1318 NEXT A5
1319 GOSUB 1466
1320 RETURN
1321 REM Lets transition I turn the cells of this tick.
1322 IF A<D(61+Z) THEN 1326
1323 IF D(166+Z)>=D(62+Z) THEN 1326
1324 LET D(166+Z)=D(166+Z)+1
1325 LET D(167+Z)=D(72+D(70+Z)+D(166+Z))
1326 RETURN
1327 REM Carries mover M along its path by one tick; mover 0 is the
1328 REM camera, mover I + 1 sprite I.
1329 LET A7=D(148+A2)
1330 IF A7>=0 THEN 1332
1331 RETURN
1332 LET A7=D(127+A2)+A7
1333 LET D(143+A2)=D(143+A2)+D(131+A7)
1334 LET D(145+A2)=D(145+A2)+D(132+A7)
1335 IF D(145+A2)<D(133+A7) THEN 1338
1336 LET D(145+A2)=D(145+A2)-D(133+A7)
1337 LET D(143+A2)=D(143+A2)+1
1338 LET D(144+A2)=D(144+A2)+D(134+A7)
1339 LET D(146+A2)=D(146+A2)+D(135+A7)
1340 IF D(146+A2)<D(136+A7) THEN 1343
1341 LET D(146+A2)=D(146+A2)-D(136+A7)
1342 LET D(144+A2)=D(144+A2)+1
1343 LET D(147+A2)=D(147+A2)+1
1344 IF D(147+A2)<>D(130+A7) THEN 1347
1345 LET A8=A2
1346 GOSUB 1349
1347 RETURN
1348 REM Goes to the next segment of mover M's path.
1349 LET D(147+A8)=0
1350 LET D(145+A8)=0
1351 LET D(146+A8)=0
1352 LET D(148+A8)=D(148+A8)+1
1353 IF D(148+A8)<>D(128+A8) THEN 1360
1354 LET D(148+A8)=0
1355 IF D(129+A8)<>0 THEN 1357
1356 LET D(148+A8)=-1
1357 IF D(129+A8)<>1 THEN 1360
1358 LET D(143+A8)=D(125+A8)
1359 LET D(144+A8)=D(126+A8)
1360 IF A8<=0 THEN 1363
1361 LET Y=A8
1362 GOSUB 1366
1363 RETURN
1364 REM Takes the animation and facing that mover M's segment asks
1365 REM for.
1366 IF D(148+Y)>=0 THEN 1368
1367 RETURN
1368 LET A9=D(127+Y)+D(148+Y)
1369 IF D(137+A9)<0 THEN 1371
1370 LET D(157+Y-1)=D(137+A9)
1371 IF D(138+A9)<0 THEN 1373
1372 LET D(158+Y-1)=D(138+A9)
1373 LET X=Y-1
1374 GOSUB 1378
1375 RETURN
1376 REM Chooses what sprite I shows for its animation and facing; a
1377 REM new animation begins at its first step.
1378 LET B0=D(124+D(139+X)+4*D(157+X)+D(158+X))
1379 LET D(160+X)=(B0-4*INT(B0/4))
1380 LET B0=INT(B0/4)
1381 IF B0=D(159+X) THEN 1385
1382 LET D(159+X)=B0
1383 LET D(161+X)=0
1384 LET D(162+X)=D(122+D(118+B0))
1385 RETURN
1386 REM Takes sprite I, or with -1 the camera, off its path: your
1387 REM program moves it then.
1388 LET D(149+B1)=-1
1389 RETURN
1390 REM Makes sprite I do animation N of its own list.
1391 LET D(157+B2)=B3
1392 LET X=B2
1393 GOSUB 1378
1394 RETURN
1395 REM Turns sprite I to facing F: 0 right, 1 left, 2 up, 3 down.
1396 LET D(158+B4)=B5
1397 LET X=B4
1398 GOSUB 1378
1399 RETURN
1400 REM Plays sprite I's animation on by one tick.
1401 LET B6=D(159+B7)
1402 LET D(162+B7)=D(162+B7)-1
1403 IF D(162+B7)<>0 THEN 1410
1404 LET D(161+B7)=D(161+B7)+1
1405 IF D(161+B7)<>D(119+B6) THEN 1409
1406 LET D(161+B7)=0
1407 IF D(120+B6)<>0 THEN 1409
1408 LET D(161+B7)=D(119+B6)-1
1409 LET D(162+B7)=D(122+D(118+B6)+D(161+B7))
1410 RETURN
1411 REM Scrolls every plane for a camera that moved by U, V pixels.
1412 IF L-1<0 THEN 1435
1413 FOR B8=0 TO L-1
1414 LET D(151+B8)=D(151+B8)+D(83+B8)*A3
1415 IF D(151+B8)>=0 THEN 1419
1416 LET D(151+B8)=D(151+B8)+D(84+B8)
1417 LET D(149+B8)=D(149+B8)-1
1418 GOTO 1415
1419 IF D(151+B8)<D(84+B8) THEN 1423
1420 LET D(151+B8)=D(151+B8)-D(84+B8)
1421 LET D(149+B8)=D(149+B8)+1
1422 GOTO 1419
1423 LET D(152+B8)=D(152+B8)+D(92+B8)*A4
1424 IF D(152+B8)>=0 THEN 1428
1425 LET D(152+B8)=D(152+B8)+D(93+B8)
1426 LET D(150+B8)=D(150+B8)-1
1427 GOTO 1424
1428 IF D(152+B8)<D(93+B8) THEN 1432
1429 LET D(152+B8)=D(152+B8)-D(93+B8)
1430 LET D(150+B8)=D(150+B8)+1
1431 GOTO 1428
1432 LET W=B8
1433 GOSUB 1452
1434 NEXT B8
1435 RETURN
1436 REM Lets plane I drift by one tick.
1437 LET D(149+A6)=D(149+A6)+D(85+A6)
1438 LET D(153+A6)=D(153+A6)+D(86+A6)
1439 IF D(153+A6)<D(87+A6) THEN 1442
1440 LET D(153+A6)=D(153+A6)-D(87+A6)
1441 LET D(149+A6)=D(149+A6)+1
1442 LET D(150+A6)=D(150+A6)+D(94+A6)
1443 LET D(154+A6)=D(154+A6)+D(95+A6)
1444 IF D(154+A6)<D(96+A6) THEN 1447
1445 LET D(154+A6)=D(154+A6)-D(96+A6)
1446 LET D(150+A6)=D(150+A6)+1
1447 LET W=A6
1448 GOSUB 1452
1449 RETURN
1450 REM Keeps the picture's pixel at the view's corner within the
1451 REM picture, for planes that repeat.
1452 IF D(149+W)-D(155+W)>=0 THEN 1455
1453 LET D(155+W)=D(155+W)-D(79+W)
1454 GOTO 1452
1455 IF D(149+W)-D(155+W)<D(79+W) THEN 1458
1456 LET D(155+W)=D(155+W)+D(79+W)
1457 GOTO 1455
1458 IF D(150+W)-D(156+W)>=0 THEN 1461
1459 LET D(156+W)=D(156+W)-D(80+W)
1460 GOTO 1458
1461 IF D(150+W)-D(156+W)<D(80+W) THEN 1464
1462 LET D(156+W)=D(156+W)+D(80+W)
1463 GOTO 1461
1464 RETURN
1465 REM Turns the cycles and takes the palette events that are due.
1466 LET B9=0
1467 IF O-1<0 THEN 1475
1468 FOR C0=0 TO O-1
1469 LET D(164+C0)=D(164+C0)-1
1470 IF D(164+C0)<>0 THEN 1474
1471 LET C1=C0
1472 GOSUB 1487
1473 LET B9=1
1474 NEXT C0
1475 IF P-1<0 THEN 1483
1476 FOR C0=0 TO P-1
1477 IF D(168+C0)>=D(55+C0) THEN 1482
1478 IF A<D(169+C0) THEN 1482
1479 LET D(168+C0)=D(168+C0)+1
1480 LET D(169+C0)=D(169+C0)+D(56+C0)
1481 LET B9=1
1482 NEXT C0
1483 IF B9<>1 THEN 1485
1484 GOSUB 1499
1485 RETURN
1486 REM Turns cycle I by one entry.
1487 LET D(164+C1)=D(51+C1)
1488 LET C2=D(165+C1)+1
1489 LET D(165+C1)=(C2-D(52+C1)*INT(C2/D(52+C1)))
1490 LET D(163+C1)=D(165+C1)
1491 IF D(165+C1)<D(50+C1) THEN 1493
1492 LET D(163+C1)=D(52+C1)-D(165+C1)
1493 IF D(53+C1)<>1 THEN 1496
1494 LET C3=D(50+C1)-D(163+C1)
1495 LET D(163+C1)=(C3-D(50+C1)*INT(C3/D(50+C1)))
1496 RETURN
1497 REM Works out which colour each moving entry has now: cycles
1498 REM first, then events.
1499 IF O-1<0 THEN 1508
1500 FOR C4=0 TO O-1
1501 IF D(50+C4)-1<0 THEN 1507
1502 FOR C5=0 TO D(50+C4)-1
1503 LET C7=C5+D(50+C4)-D(163+C4)
1504 LET C6=(C7-D(50+C4)*INT(C7/D(50+C4)))
1505 LET D(170+D(49+C4)+C5)=D(49+C4)+C6
1506 NEXT C5
1507 NEXT C4
1508 IF P-1<0 THEN 1516
1509 FOR C4=0 TO P-1
1510 IF D(168+C4)<=0 THEN 1515
1511 IF D(58+C4)-1<0 THEN 1515
1512 FOR C5=0 TO D(58+C4)-1
1513 LET D(170+D(60+D(57+C4)+C5))=D(59+C4)+(D(168+C4)-1)*D(58+C4)+C5
1514 NEXT C5
1515 NEXT C4
1516 RETURN
1517 REM Finds out the frame, flip and place in the view of sprite I.
1518 LET C8=D(144+C9)
1519 LET E0=D(145+C9)
1520 IF D(140+C9)<0 THEN 1523
1521 LET C8=C8-D(149+D(140+C9))
1522 LET E0=E0-D(150+D(140+C9))
1523 LET E1=D(118+D(159+C9))+D(161+C9)
1524 LET E2=D(121+E1)
1525 LET E5=(D(123+E1)-2*INT(D(123+E1)/2))
1526 LET E4=E5+(D(160+C9)-2*INT(D(160+C9)/2))
1527 LET E3=(E4-2*INT(E4/2))
1528 LET E8=INT(D(123+E1)/2)+INT(D(160+C9)/2)
1529 LET E7=(E8-2*INT(E8/2))
1530 LET E6=E7*2
1531 LET E3=E3+E6
1532 RETURN
1533 REM Finds out the hit box of sprite I in the view; its width is
1534 REM 0 when it has none.
1535 LET C9=E9
1536 GOSUB 1518
1537 LET F0=D(116+E2)
1538 LET F1=D(117+E2)
1539 LET F2=C8+D(114+E2)
1540 IF (E3-2*INT(E3/2))<>1 THEN 1542
1541 LET F2=C8-D(114+E2)-F0+1
1542 LET F3=E0+D(115+E2)
1543 IF INT(E3/2)<>1 THEN 1545
1544 LET F3=E0-D(115+E2)-F1+1
1545 RETURN
1546 REM Finds out whether the hit boxes of sprites I and J overlap:
1547 REM touching is 1 or 0.
1548 LET F4=0
1549 LET E9=F5
1550 GOSUB 1535
1551 LET F6=F2
1552 LET F7=F3
1553 LET F8=F0
1554 LET F9=F1
1555 LET E9=G0
1556 GOSUB 1535
1557 IF F8=0 THEN 1559
1558 IF F0<>0 THEN 1560
1559 RETURN
1560 IF F6>=F2+F0 THEN 1565
1561 IF F2>=F6+F8 THEN 1565
1562 IF F7>=F3+F1 THEN 1565
1563 IF F3>=F7+F9 THEN 1565
1564 LET F4=1
1565 RETURN
1566 REM Finds out the flags of the map cell at pixel X, Y of plane
1567 REM P, 0 outside: flags, added up.
1568 LET G1=0
1569 IF D(104+G2)>=0 THEN 1571
1570 RETURN
1571 IF D(82+G2)<>1 THEN 1576
1572 IF G3>=0 THEN 1575
1573 LET G3=G3+D(79+G2)
1574 GOTO 1572
1575 LET G3=(G3-D(79+G2)*INT(G3/D(79+G2)))
1576 IF D(91+G2)<>1 THEN 1581
1577 IF G4>=0 THEN 1580
1578 LET G4=G4+D(80+G2)
1579 GOTO 1577
1580 LET G4=(G4-D(80+G2)*INT(G4/D(80+G2)))
1581 IF G3<0 THEN 1585
1582 IF G4<0 THEN 1585
1583 IF G3>=D(79+G2) THEN 1585
1584 IF G4<D(80+G2) THEN 1586
1585 RETURN
1586 LET G5=G2
1587 LET G6=INT(G4/D(107+G2))*D(105+G2)+INT(G3/D(106+G2))
1588 GOSUB 1606
1589 RETURN
1590 REM Every entry starts with its own colour.
1591 IF I-1<0 THEN 1595
1592 FOR G7=0 TO I-1
1593 LET D(170+G7)=G7
1594 NEXT G7
1595 RETURN
1596 REM Moves the camera to X, Y in the world.
1597 LET G8=G9-D(143)
1598 LET H0=H1-D(144)
1599 LET D(143)=G9
1600 LET D(144)=H1
1601 LET A3=G8
1602 LET A4=H0
1603 GOSUB 1412
1604 RETURN
1605 REM Finds the flags of cell N of plane P.
1606 LET G1=D(108+D(104+G5)+G6)
1607 RETURN
1608 REM Lets every sprite go on by one tick.
1609 IF M-1<0 THEN 1616
1610 FOR H2=0 TO M-1
1611 LET B7=H2
1612 GOSUB 1401
1613 LET A2=H2+1
1614 GOSUB 1329
1615 NEXT H2
1616 RETURN
1617 REM red: 0 to 255, by colour; the palette's entries come first
1618 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1619 REM green: 0 to 255, by colour; the palette's entries come first
1620 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1621 REM blue: 0 to 255, by colour; the palette's entries come first
1622 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0
1623 REM plane_columns: columns of each plane's map
1624 DATA 1
1625 REM plane_rows: rows
1626 DATA 1
1627 REM tile_w: pixels of a cell
1628 DATA 8
1629 REM tile_h
1630 DATA 8
1631 REM last_w: pixels of the last column's cells
1632 DATA 8
1633 REM last_h: and of the last row's
1634 DATA 8
1635 REM plane_w: pixels of the whole picture
1636 DATA 8
1637 REM plane_h
1638 DATA 8
1639 REM map_first: first cell in map_cell
1640 DATA 0
1641 REM wrap_x: 1 when it repeats along x
1642 DATA 1
1643 REM ratio_x: scroll ratio along x: this many
1644 DATA 1
1645 REM ratio_parts_x: parts of so many
1646 DATA 1
1647 REM drift_x: pixels it drifts a tick along x
1648 DATA 0
1649 REM drift_step_x: and this many
1650 DATA 0
1651 REM drift_parts_x: parts of so many
1652 DATA 1
1653 REM plane_start_x: scroll at tick 0 along x
1654 DATA 0
1655 REM plane_start_part_x: and its parts
1656 DATA 0
1657 REM start_base_x: whole pictures scrolled by at tick 0
1658 DATA 0
1659 REM wrap_y: 1 when it repeats along y
1660 DATA 0
1661 REM ratio_y: scroll ratio along y: this many
1662 DATA 1
1663 REM ratio_parts_y: parts of so many
1664 DATA 1
1665 REM drift_y: pixels it drifts a tick along y
1666 DATA 0
1667 REM drift_step_y: and this many
1668 DATA 0
1669 REM drift_parts_y: parts of so many
1670 DATA 1
1671 REM plane_start_y: scroll at tick 0 along y
1672 DATA 0
1673 REM plane_start_part_y: and its parts
1674 DATA 0
1675 REM start_base_y: whole pictures scrolled by at tick 0
1676 DATA 0
1677 REM map_cell: 4 x tile + flip, -1 is empty
1678 DATA 0
1679 REM piece_w: pixels of each piece: tiles, then frames
1680 DATA 8
1681 REM piece_h
1682 DATA 8
1683 REM order: drawing order: planes, then planes + sprite
1684 DATA 0
1685 REM flag_first: first place in flag_cell, -1 when a plane has no
1686 REM flags
1687 DATA -1
1688 REM flag_columns: columns of its map
1689 DATA 0
1690 REM flag_w: pixels of a cell
1691 DATA 1
1692 REM flag_h
1693 DATA 1
1694 REM start_x: start places: camera first, then sprites
1695 DATA 0
1696 REM start_y
1697 DATA 0
1698 REM path_first: first segment of each path
1699 DATA 0
1700 REM path_count: its segments
1701 DATA 0
1702 REM path_repeat: after the last: 0 stay, 1 from the start place,
1703 REM 2 onward
1704 DATA 0
1705 END
