1000 REM tiny: scene tiny for target t, written by scenekit
1001 REM Planes: 0 dot.
1002 REM No drawing: the dialect cannot draw; it checks tables and
1003 REM scene arithmetic.
1004 REM Routines for your program:
1005 REM   GOSUB 1082: first of all: reads the tables,
1006 REM   opens the display, loads the art
1007 REM   GOSUB 1234: puts everything to tick 0
1008 REM   GOSUB 1298: goes on by one tick: camera, planes,
1009 REM   sprites, animations, palette
1010 REM   set G8 to x, H0 to y, then GOSUB 1591:
1011 REM   moves the camera
1012 REM   set B3 to i, B4 to f, then GOSUB 1390: turns a
1013 REM   sprite
1014 REM   set B1 to i, B2 to n, then GOSUB 1385: gives a
1015 REM   sprite another animation
1016 REM   set B6 to i, then GOSUB 1395: plays one
1017 REM   sprite's animation on
1018 REM   set C0 to i, then GOSUB 1481: turns one
1019 REM   cycle
1020 REM   set E8 to i, then GOSUB 1529: finds a
1021 REM   sprite's hit box in the view: hit_left, hit_top, hit_wide,
1022 REM   hit_high
1023 REM   set F4 to i, F9 to j, then GOSUB 1542: finds
1024 REM   whether two sprites' hit boxes overlap: touching
1025 REM   set G1 to p, G2 to x, G3 to y, then GOSUB
1026 REM   1562: finds the flags of the map cell at a
1027 REM   pixel of a plane: flags
1028 REM Names it uses:
1029 REM   tick A, page B, view_w C, view_h E, transparent F,
1030 REM   backdrop G, clear_first H, entries I, moving J, pieces K,
1031 REM   planes L, actors M, movers N, cycles O, events P, covers
1032 REM   Q, order_count R, ticks_per_update S, pages U, spare1 C1,
1033 REM   spare2 C2, spare3 C5, spare4 C6, pose_x C7, pose_y C9,
1034 REM   pose_frame E1, pose_flip E2, spare5 E3, spare6 E4, spare7
1035 REM   E5, spare8 E6, spare9 E7, hit_wide E9, hit_high F0,
1036 REM   hit_left F1, hit_top F2, touching F3, flags G0, red D,
1037 REM   green D(16), blue D(32), moving_entry D(48), cycle_first
1038 REM   D(49), cycle_count D(50), cycle_ticks D(51), cycle_period
1039 REM   D(52), cycle_back D(53), event_tick D(54), event_steps
1040 REM   D(55), event_wait D(56), event_first D(57), event_count
1041 REM   D(58), event_colour D(59), event_entry D(60), cover_tick
1042 REM   D(61), cover_ticks D(62), cover_opens D(63), cover_entry
1043 REM   D(64), cover_columns D(65), cover_cells D(66), cover_w
1044 REM   D(67), cover_h D(68), cover_first D(69), cover_begin
1045 REM   D(70), cover_cell D(71), cover_count D(72), plane_columns
1046 REM   D(73), plane_rows D(74), tile_w D(75), tile_h D(76),
1047 REM   last_w D(77), last_h D(78), plane_w D(79), plane_h D(80),
1048 REM   map_first D(81), wrap_x D(82), ratio_x D(83),
1049 REM   ratio_parts_x D(84), drift_x D(85), drift_step_x D(86),
1050 REM   drift_parts_x D(87), plane_start_x D(88),
1051 REM   plane_start_part_x D(89), start_base_x D(90), wrap_y
1052 REM   D(91), ratio_y D(92), ratio_parts_y D(93), drift_y D(94),
1053 REM   drift_step_y D(95), drift_parts_y D(96), plane_start_y
1054 REM   D(97), plane_start_part_y D(98), start_base_y D(99),
1055 REM   map_cell D(100), piece_w D(101), piece_h D(102), order
1056 REM   D(103), flag_first D(104), flag_columns D(105), flag_w
1057 REM   D(106), flag_h D(107), flag_cell D(108), frame_cell
1058 REM   D(109), frame_x D(110), frame_y D(111), pivot_x D(112),
1059 REM   pivot_y D(113), hit_x D(114), hit_y D(115), hit_w D(116),
1060 REM   hit_h D(117), animation_first D(118), animation_count
1061 REM   D(119), animation_again D(120), step_frame D(121),
1062 REM   step_ticks D(122), step_flip D(123), look D(124), start_x
1063 REM   D(125), start_y D(126), path_first D(127), path_count
1064 REM   D(128), path_repeat D(129), segment_ticks D(130),
1065 REM   segment_x D(131), segment_part_x D(132), segment_parts_x
1066 REM   D(133), segment_y D(134), segment_part_y D(135),
1067 REM   segment_parts_y D(136), segment_does D(137), segment_face
1068 REM   D(138), actor_look D(139), actor_plane D(140), start_does
1069 REM   D(141), start_face D(142), mover_x D(143), mover_y D(144),
1070 REM   mover_part_x D(145), mover_part_y D(146), mover_used
1071 REM   D(147), mover_segment D(148), plane_x D(149), plane_y
1072 REM   D(150), plane_part_x D(151), plane_part_y D(152),
1073 REM   drift_part_x D(153), drift_part_y D(154), wrap_base_x
1074 REM   D(155), wrap_base_y D(156), actor_does D(157), actor_face
1075 REM   D(158), actor_shows D(159), actor_flip D(160), actor_step
1076 REM   D(161), actor_left D(162), cycle_shift D(163), cycle_left
1077 REM   D(164), cycle_turn D(165), cover_used D(166), cover_done
1078 REM   D(167), event_done D(168), event_next D(169), now D(170),
1079 REM   shown D(186).
1080 DIM D(201)
1081 REM Reads the tables, opens the display and loads the art.
1082 LET A=0
1083 LET B=0
1084 LET C=16
1085 LET E=8
1086 LET F=0
1087 LET G=3
1088 LET H=1
1089 LET I=16
1090 LET J=0
1091 LET K=1
1092 LET L=1
1093 LET M=0
1094 LET N=1
1095 LET O=0
1096 LET P=0
1097 LET Q=0
1098 LET R=1
1099 LET S=1
1100 RESTORE
1101 FOR T=0 TO 15
1102 READ D(T)
1103 NEXT T
1104 FOR T=0 TO 15
1105 READ D(16+T)
1106 NEXT T
1107 FOR T=0 TO 15
1108 READ D(32+T)
1109 NEXT T
1110 FOR T=0 TO 0
1111 READ D(73+T)
1112 NEXT T
1113 FOR T=0 TO 0
1114 READ D(74+T)
1115 NEXT T
1116 FOR T=0 TO 0
1117 READ D(75+T)
1118 NEXT T
1119 FOR T=0 TO 0
1120 READ D(76+T)
1121 NEXT T
1122 FOR T=0 TO 0
1123 READ D(77+T)
1124 NEXT T
1125 FOR T=0 TO 0
1126 READ D(78+T)
1127 NEXT T
1128 FOR T=0 TO 0
1129 READ D(79+T)
1130 NEXT T
1131 FOR T=0 TO 0
1132 READ D(80+T)
1133 NEXT T
1134 FOR T=0 TO 0
1135 READ D(81+T)
1136 NEXT T
1137 FOR T=0 TO 0
1138 READ D(82+T)
1139 NEXT T
1140 FOR T=0 TO 0
1141 READ D(83+T)
1142 NEXT T
1143 FOR T=0 TO 0
1144 READ D(84+T)
1145 NEXT T
1146 FOR T=0 TO 0
1147 READ D(85+T)
1148 NEXT T
1149 FOR T=0 TO 0
1150 READ D(86+T)
1151 NEXT T
1152 FOR T=0 TO 0
1153 READ D(87+T)
1154 NEXT T
1155 FOR T=0 TO 0
1156 READ D(88+T)
1157 NEXT T
1158 FOR T=0 TO 0
1159 READ D(89+T)
1160 NEXT T
1161 FOR T=0 TO 0
1162 READ D(90+T)
1163 NEXT T
1164 FOR T=0 TO 0
1165 READ D(91+T)
1166 NEXT T
1167 FOR T=0 TO 0
1168 READ D(92+T)
1169 NEXT T
1170 FOR T=0 TO 0
1171 READ D(93+T)
1172 NEXT T
1173 FOR T=0 TO 0
1174 READ D(94+T)
1175 NEXT T
1176 FOR T=0 TO 0
1177 READ D(95+T)
1178 NEXT T
1179 FOR T=0 TO 0
1180 READ D(96+T)
1181 NEXT T
1182 FOR T=0 TO 0
1183 READ D(97+T)
1184 NEXT T
1185 FOR T=0 TO 0
1186 READ D(98+T)
1187 NEXT T
1188 FOR T=0 TO 0
1189 READ D(99+T)
1190 NEXT T
1191 FOR T=0 TO 0
1192 READ D(100+T)
1193 NEXT T
1194 FOR T=0 TO 0
1195 READ D(101+T)
1196 NEXT T
1197 FOR T=0 TO 0
1198 READ D(102+T)
1199 NEXT T
1200 FOR T=0 TO 0
1201 READ D(103+T)
1202 NEXT T
1203 FOR T=0 TO 0
1204 READ D(104+T)
1205 NEXT T
1206 FOR T=0 TO 0
1207 READ D(105+T)
1208 NEXT T
1209 FOR T=0 TO 0
1210 READ D(106+T)
1211 NEXT T
1212 FOR T=0 TO 0
1213 READ D(107+T)
1214 NEXT T
1215 FOR T=0 TO 0
1216 READ D(125+T)
1217 NEXT T
1218 FOR T=0 TO 0
1219 READ D(126+T)
1220 NEXT T
1221 FOR T=0 TO 0
1222 READ D(127+T)
1223 NEXT T
1224 FOR T=0 TO 0
1225 READ D(128+T)
1226 NEXT T
1227 FOR T=0 TO 0
1228 READ D(129+T)
1229 NEXT T
1230 LET U=2
1231 GOSUB 1585
1232 RETURN
1233 REM Puts everything to where it is at tick 0.
1234 GOSUB 1238
1235 RETURN
1236 REM Puts camera, planes, sprites and colours to where they are
1237 REM at tick 0; values stay.
1238 LET A=0
1239 IF N-1<0 THEN 1250
1240 FOR V=0 TO N-1
1241 LET D(143+V)=D(125+V)
1242 LET D(144+V)=D(126+V)
1243 LET D(145+V)=0
1244 LET D(146+V)=0
1245 LET D(147+V)=0
1246 LET D(148+V)=0
1247 IF D(128+V)<>0 THEN 1249
1248 LET D(148+V)=-1
1249 NEXT V
1250 IF L-1<0 THEN 1263
1251 FOR V=0 TO L-1
1252 LET D(149+V)=D(88+V)
1253 LET D(150+V)=D(97+V)
1254 LET D(151+V)=D(89+V)
1255 LET D(152+V)=D(98+V)
1256 LET D(153+V)=0
1257 LET D(154+V)=0
1258 LET D(155+V)=D(90+V)
1259 LET D(156+V)=D(99+V)
1260 LET W=V
1261 GOSUB 1446
1262 NEXT V
1263 IF M-1<0 THEN 1271
1264 FOR V=0 TO M-1
1265 LET D(158+V)=D(142+V)
1266 LET D(157+V)=D(141+V)
1267 LET D(159+V)=-1
1268 LET X=V
1269 GOSUB 1376
1270 NEXT V
1271 IF N-1<1 THEN 1276
1272 FOR V=1 TO N-1
1273 LET Y=V
1274 GOSUB 1364
1275 NEXT V
1276 IF O-1<0 THEN 1282
1277 FOR V=0 TO O-1
1278 LET D(163+V)=0
1279 LET D(165+V)=0
1280 LET D(164+V)=D(51+V)
1281 NEXT V
1282 IF P-1<0 THEN 1287
1283 FOR V=0 TO P-1
1284 LET D(168+V)=0
1285 LET D(169+V)=D(54+V)
1286 NEXT V
1287 IF Q-1<0 THEN 1294
1288 FOR V=0 TO Q-1
1289 LET D(166+V)=0
1290 LET D(167+V)=0
1291 LET Z=V
1292 GOSUB 1320
1293 NEXT V
1294 GOSUB 1493
1295 RETURN
1296 REM One tick: camera, planes, sprites, animations and palette go
1297 REM on.
1298 LET A=A+1
1299 LET A0=D(143)
1300 LET A1=D(144)
1301 LET A2=0
1302 GOSUB 1327
1303 LET A3=D(143)-A0
1304 LET A4=D(144)-A1
1305 GOSUB 1406
1306 IF L-1<0 THEN 1311
1307 FOR A5=0 TO L-1
1308 LET A6=A5
1309 GOSUB 1431
1310 NEXT A5
1311 GOSUB 1603
1312 IF Q-1<0 THEN 1317
1313 FOR A5=0 TO Q-1
1314 LET Z=A5
1315 GOSUB 1320
1316 NEXT A5
1317 GOSUB 1460
1318 RETURN
1319 REM Lets transition I turn the cells of this tick.
1320 IF A<D(61+Z) THEN 1324
1321 IF D(166+Z)>=D(62+Z) THEN 1324
1322 LET D(166+Z)=D(166+Z)+1
1323 LET D(167+Z)=D(72+D(70+Z)+D(166+Z))
1324 RETURN
1325 REM Carries mover M along its path by one tick; mover 0 is the
1326 REM camera, mover I + 1 sprite I.
1327 LET A7=D(148+A2)
1328 IF A7>=0 THEN 1330
1329 RETURN
1330 LET A7=D(127+A2)+A7
1331 LET D(143+A2)=D(143+A2)+D(131+A7)
1332 LET D(145+A2)=D(145+A2)+D(132+A7)
1333 IF D(145+A2)<D(133+A7) THEN 1336
1334 LET D(145+A2)=D(145+A2)-D(133+A7)
1335 LET D(143+A2)=D(143+A2)+1
1336 LET D(144+A2)=D(144+A2)+D(134+A7)
1337 LET D(146+A2)=D(146+A2)+D(135+A7)
1338 IF D(146+A2)<D(136+A7) THEN 1341
1339 LET D(146+A2)=D(146+A2)-D(136+A7)
1340 LET D(144+A2)=D(144+A2)+1
1341 LET D(147+A2)=D(147+A2)+1
1342 IF D(147+A2)<>D(130+A7) THEN 1345
1343 LET A8=A2
1344 GOSUB 1347
1345 RETURN
1346 REM Goes to the next segment of mover M's path.
1347 LET D(147+A8)=0
1348 LET D(145+A8)=0
1349 LET D(146+A8)=0
1350 LET D(148+A8)=D(148+A8)+1
1351 IF D(148+A8)<>D(128+A8) THEN 1358
1352 LET D(148+A8)=0
1353 IF D(129+A8)<>0 THEN 1355
1354 LET D(148+A8)=-1
1355 IF D(129+A8)<>1 THEN 1358
1356 LET D(143+A8)=D(125+A8)
1357 LET D(144+A8)=D(126+A8)
1358 IF A8<=0 THEN 1361
1359 LET Y=A8
1360 GOSUB 1364
1361 RETURN
1362 REM Takes the animation and facing that mover M's segment asks
1363 REM for.
1364 IF D(148+Y)>=0 THEN 1366
1365 RETURN
1366 LET A9=D(127+Y)+D(148+Y)
1367 IF D(137+A9)<0 THEN 1369
1368 LET D(157+Y-1)=D(137+A9)
1369 IF D(138+A9)<0 THEN 1371
1370 LET D(158+Y-1)=D(138+A9)
1371 LET X=Y-1
1372 GOSUB 1376
1373 RETURN
1374 REM Chooses what sprite I shows for its animation and facing; a
1375 REM new animation begins at its first step.
1376 LET B0=D(124+D(139+X)+4*D(157+X)+D(158+X))
1377 LET D(160+X)=(B0-4*INT(B0/4))
1378 LET B0=INT(B0/4)
1379 IF B0=D(159+X) THEN 1383
1380 LET D(159+X)=B0
1381 LET D(161+X)=0
1382 LET D(162+X)=D(122+D(118+B0))
1383 RETURN
1384 REM Makes sprite I do animation N of its own list.
1385 LET D(157+B1)=B2
1386 LET X=B1
1387 GOSUB 1376
1388 RETURN
1389 REM Turns sprite I to facing F: 0 right, 1 left, 2 up, 3 down.
1390 LET D(158+B3)=B4
1391 LET X=B3
1392 GOSUB 1376
1393 RETURN
1394 REM Plays sprite I's animation on by one tick.
1395 LET B5=D(159+B6)
1396 LET D(162+B6)=D(162+B6)-1
1397 IF D(162+B6)<>0 THEN 1404
1398 LET D(161+B6)=D(161+B6)+1
1399 IF D(161+B6)<>D(119+B5) THEN 1403
1400 LET D(161+B6)=0
1401 IF D(120+B5)<>0 THEN 1403
1402 LET D(161+B6)=D(119+B5)-1
1403 LET D(162+B6)=D(122+D(118+B5)+D(161+B6))
1404 RETURN
1405 REM Scrolls every plane for a camera that moved by U, V pixels.
1406 IF L-1<0 THEN 1429
1407 FOR B7=0 TO L-1
1408 LET D(151+B7)=D(151+B7)+D(83+B7)*A3
1409 IF D(151+B7)>=0 THEN 1413
1410 LET D(151+B7)=D(151+B7)+D(84+B7)
1411 LET D(149+B7)=D(149+B7)-1
1412 GOTO 1409
1413 IF D(151+B7)<D(84+B7) THEN 1417
1414 LET D(151+B7)=D(151+B7)-D(84+B7)
1415 LET D(149+B7)=D(149+B7)+1
1416 GOTO 1413
1417 LET D(152+B7)=D(152+B7)+D(92+B7)*A4
1418 IF D(152+B7)>=0 THEN 1422
1419 LET D(152+B7)=D(152+B7)+D(93+B7)
1420 LET D(150+B7)=D(150+B7)-1
1421 GOTO 1418
1422 IF D(152+B7)<D(93+B7) THEN 1426
1423 LET D(152+B7)=D(152+B7)-D(93+B7)
1424 LET D(150+B7)=D(150+B7)+1
1425 GOTO 1422
1426 LET W=B7
1427 GOSUB 1446
1428 NEXT B7
1429 RETURN
1430 REM Lets plane I drift by one tick.
1431 LET D(149+A6)=D(149+A6)+D(85+A6)
1432 LET D(153+A6)=D(153+A6)+D(86+A6)
1433 IF D(153+A6)<D(87+A6) THEN 1436
1434 LET D(153+A6)=D(153+A6)-D(87+A6)
1435 LET D(149+A6)=D(149+A6)+1
1436 LET D(150+A6)=D(150+A6)+D(94+A6)
1437 LET D(154+A6)=D(154+A6)+D(95+A6)
1438 IF D(154+A6)<D(96+A6) THEN 1441
1439 LET D(154+A6)=D(154+A6)-D(96+A6)
1440 LET D(150+A6)=D(150+A6)+1
1441 LET W=A6
1442 GOSUB 1446
1443 RETURN
1444 REM Keeps the picture's pixel at the view's corner within the
1445 REM picture, for planes that repeat.
1446 IF D(149+W)-D(155+W)>=0 THEN 1449
1447 LET D(155+W)=D(155+W)-D(79+W)
1448 GOTO 1446
1449 IF D(149+W)-D(155+W)<D(79+W) THEN 1452
1450 LET D(155+W)=D(155+W)+D(79+W)
1451 GOTO 1449
1452 IF D(150+W)-D(156+W)>=0 THEN 1455
1453 LET D(156+W)=D(156+W)-D(80+W)
1454 GOTO 1452
1455 IF D(150+W)-D(156+W)<D(80+W) THEN 1458
1456 LET D(156+W)=D(156+W)+D(80+W)
1457 GOTO 1455
1458 RETURN
1459 REM Turns the cycles and takes the palette events that are due.
1460 LET B8=0
1461 IF O-1<0 THEN 1469
1462 FOR B9=0 TO O-1
1463 LET D(164+B9)=D(164+B9)-1
1464 IF D(164+B9)<>0 THEN 1468
1465 LET C0=B9
1466 GOSUB 1481
1467 LET B8=1
1468 NEXT B9
1469 IF P-1<0 THEN 1477
1470 FOR B9=0 TO P-1
1471 IF D(168+B9)>=D(55+B9) THEN 1476
1472 IF A<D(169+B9) THEN 1476
1473 LET D(168+B9)=D(168+B9)+1
1474 LET D(169+B9)=D(169+B9)+D(56+B9)
1475 LET B8=1
1476 NEXT B9
1477 IF B8<>1 THEN 1479
1478 GOSUB 1493
1479 RETURN
1480 REM Turns cycle I by one entry.
1481 LET D(164+C0)=D(51+C0)
1482 LET C1=D(165+C0)+1
1483 LET D(165+C0)=(C1-D(52+C0)*INT(C1/D(52+C0)))
1484 LET D(163+C0)=D(165+C0)
1485 IF D(165+C0)<D(50+C0) THEN 1487
1486 LET D(163+C0)=D(52+C0)-D(165+C0)
1487 IF D(53+C0)<>1 THEN 1490
1488 LET C2=D(50+C0)-D(163+C0)
1489 LET D(163+C0)=(C2-D(50+C0)*INT(C2/D(50+C0)))
1490 RETURN
1491 REM Works out which colour each moving entry has now: cycles
1492 REM first, then events.
1493 IF O-1<0 THEN 1502
1494 FOR C3=0 TO O-1
1495 IF D(50+C3)-1<0 THEN 1501
1496 FOR C4=0 TO D(50+C3)-1
1497 LET C6=C4+D(50+C3)-D(163+C3)
1498 LET C5=(C6-D(50+C3)*INT(C6/D(50+C3)))
1499 LET D(170+D(49+C3)+C4)=D(49+C3)+C5
1500 NEXT C4
1501 NEXT C3
1502 IF P-1<0 THEN 1510
1503 FOR C3=0 TO P-1
1504 IF D(168+C3)<=0 THEN 1509
1505 IF D(58+C3)-1<0 THEN 1509
1506 FOR C4=0 TO D(58+C3)-1
1507 LET D(170+D(60+D(57+C3)+C4))=D(59+C3)+(D(168+C3)-1)*D(58+C3)+C4
1508 NEXT C4
1509 NEXT C3
1510 RETURN
1511 REM Finds out the frame, flip and place in the view of sprite I.
1512 LET C7=D(144+C8)
1513 LET C9=D(145+C8)
1514 IF D(140+C8)<0 THEN 1517
1515 LET C7=C7-D(149+D(140+C8))
1516 LET C9=C9-D(150+D(140+C8))
1517 LET E0=D(118+D(159+C8))+D(161+C8)
1518 LET E1=D(121+E0)
1519 LET E4=(D(123+E0)-2*INT(D(123+E0)/2))
1520 LET E3=E4+(D(160+C8)-2*INT(D(160+C8)/2))
1521 LET E2=(E3-2*INT(E3/2))
1522 LET E7=INT(D(123+E0)/2)+INT(D(160+C8)/2)
1523 LET E6=(E7-2*INT(E7/2))
1524 LET E5=E6*2
1525 LET E2=E2+E5
1526 RETURN
1527 REM Finds out the hit box of sprite I in the view; its width is
1528 REM 0 when it has none.
1529 LET C8=E8
1530 GOSUB 1512
1531 LET E9=D(116+E1)
1532 LET F0=D(117+E1)
1533 LET F1=C7+D(114+E1)
1534 IF (E2-2*INT(E2/2))<>1 THEN 1536
1535 LET F1=C7-D(114+E1)-E9+1
1536 LET F2=C9+D(115+E1)
1537 IF INT(E2/2)<>1 THEN 1539
1538 LET F2=C9-D(115+E1)-F0+1
1539 RETURN
1540 REM Finds out whether the hit boxes of sprites I and J overlap:
1541 REM touching is 1 or 0.
1542 LET F3=0
1543 LET E8=F4
1544 GOSUB 1529
1545 LET F5=F1
1546 LET F6=F2
1547 LET F7=E9
1548 LET F8=F0
1549 LET E8=F9
1550 GOSUB 1529
1551 IF F7=0 THEN 1553
1552 IF E9<>0 THEN 1554
1553 RETURN
1554 IF F5>=F1+E9 THEN 1559
1555 IF F1>=F5+F7 THEN 1559
1556 IF F6>=F2+F0 THEN 1559
1557 IF F2>=F6+F8 THEN 1559
1558 LET F3=1
1559 RETURN
1560 REM Finds out the flags of the map cell at pixel X, Y of plane
1561 REM P, 0 outside: flags, added up.
1562 LET G0=0
1563 IF D(104+G1)>=0 THEN 1565
1564 RETURN
1565 IF D(82+G1)<>1 THEN 1570
1566 IF G2>=0 THEN 1569
1567 LET G2=G2+D(79+G1)
1568 GOTO 1566
1569 LET G2=(G2-D(79+G1)*INT(G2/D(79+G1)))
1570 IF D(91+G1)<>1 THEN 1575
1571 IF G3>=0 THEN 1574
1572 LET G3=G3+D(80+G1)
1573 GOTO 1571
1574 LET G3=(G3-D(80+G1)*INT(G3/D(80+G1)))
1575 IF G2<0 THEN 1579
1576 IF G3<0 THEN 1579
1577 IF G2>=D(79+G1) THEN 1579
1578 IF G3<D(80+G1) THEN 1580
1579 RETURN
1580 LET G4=G1
1581 LET G5=INT(G3/D(107+G1))*D(105+G1)+INT(G2/D(106+G1))
1582 GOSUB 1600
1583 RETURN
1584 REM Every entry starts with its own colour.
1585 IF I-1<0 THEN 1589
1586 FOR G6=0 TO I-1
1587 LET D(170+G6)=G6
1588 NEXT G6
1589 RETURN
1590 REM Moves the camera to X, Y in the world.
1591 LET G7=G8-D(143)
1592 LET G9=H0-D(144)
1593 LET D(143)=G8
1594 LET D(144)=H0
1595 LET A3=G7
1596 LET A4=G9
1597 GOSUB 1406
1598 RETURN
1599 REM Finds the flags of cell N of plane P.
1600 LET G0=D(108+D(104+G4)+G5)
1601 RETURN
1602 REM Lets every sprite go on by one tick.
1603 IF M-1<0 THEN 1610
1604 FOR H1=0 TO M-1
1605 LET B6=H1
1606 GOSUB 1395
1607 LET A2=H1+1
1608 GOSUB 1327
1609 NEXT H1
1610 RETURN
1611 REM red: 0 to 255, by colour; the palette's entries come first
1612 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1613 REM green: 0 to 255, by colour; the palette's entries come first
1614 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1615 REM blue: 0 to 255, by colour; the palette's entries come first
1616 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0
1617 REM plane_columns: columns of each plane's map
1618 DATA 1
1619 REM plane_rows: rows
1620 DATA 1
1621 REM tile_w: pixels of a cell
1622 DATA 8
1623 REM tile_h
1624 DATA 8
1625 REM last_w: pixels of the last column's cells
1626 DATA 8
1627 REM last_h: and of the last row's
1628 DATA 8
1629 REM plane_w: pixels of the whole picture
1630 DATA 8
1631 REM plane_h
1632 DATA 8
1633 REM map_first: first cell in map_cell
1634 DATA 0
1635 REM wrap_x: 1 when it repeats along x
1636 DATA 1
1637 REM ratio_x: scroll ratio along x: this many
1638 DATA 1
1639 REM ratio_parts_x: parts of so many
1640 DATA 1
1641 REM drift_x: pixels it drifts a tick along x
1642 DATA 0
1643 REM drift_step_x: and this many
1644 DATA 0
1645 REM drift_parts_x: parts of so many
1646 DATA 1
1647 REM plane_start_x: scroll at tick 0 along x
1648 DATA 0
1649 REM plane_start_part_x: and its parts
1650 DATA 0
1651 REM start_base_x: whole pictures scrolled by at tick 0
1652 DATA 0
1653 REM wrap_y: 1 when it repeats along y
1654 DATA 0
1655 REM ratio_y: scroll ratio along y: this many
1656 DATA 1
1657 REM ratio_parts_y: parts of so many
1658 DATA 1
1659 REM drift_y: pixels it drifts a tick along y
1660 DATA 0
1661 REM drift_step_y: and this many
1662 DATA 0
1663 REM drift_parts_y: parts of so many
1664 DATA 1
1665 REM plane_start_y: scroll at tick 0 along y
1666 DATA 0
1667 REM plane_start_part_y: and its parts
1668 DATA 0
1669 REM start_base_y: whole pictures scrolled by at tick 0
1670 DATA 0
1671 REM map_cell: 4 x tile + flip, -1 is empty
1672 DATA 0
1673 REM piece_w: pixels of each piece: tiles, then frames
1674 DATA 8
1675 REM piece_h
1676 DATA 8
1677 REM order: drawing order: planes, then planes + sprite
1678 DATA 0
1679 REM flag_first: first place in flag_cell, -1 when a plane has no
1680 REM flags
1681 DATA -1
1682 REM flag_columns: columns of its map
1683 DATA 0
1684 REM flag_w: pixels of a cell
1685 DATA 1
1686 REM flag_h
1687 DATA 1
1688 REM start_x: start places: camera first, then sprites
1689 DATA 0
1690 REM start_y
1691 DATA 0
1692 REM path_first: first segment of each path
1693 DATA 0
1694 REM path_count: its segments
1695 DATA 0
1696 REM path_repeat: after the last: 0 stay, 1 from the start place,
1697 REM 2 onward
1698 DATA 0
1699 END
