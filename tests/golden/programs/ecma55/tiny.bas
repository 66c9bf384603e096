1000 REM tiny: scene tiny for target t, written by scenekit
1001 REM Planes: 0 dot.
1002 REM No drawing: the dialect cannot draw; it checks tables and
1003 REM scene arithmetic.
1004 REM Routines for your program:
1005 REM   GOSUB 1082: first of all: reads the tables,
1006 REM   opens the display, loads the art
1007 REM   GOSUB 1234: puts everything to tick 0
1008 REM   GOSUB 1294: goes on by one tick: camera, planes,
1009 REM   sprites, animations, palette
1010 REM   set G8 to x, H0 to y, then GOSUB 1593:
1011 REM   moves the camera
1012 REM   set B4 to i, B5 to f, then GOSUB 1392: turns a
1013 REM   sprite
1014 REM   set B2 to i, B3 to n, then GOSUB 1387: gives a
1015 REM   sprite another animation
1016 REM   set A7 to i, then GOSUB 1397: plays one
1017 REM   sprite's animation on
1018 REM   set C0 to i, then GOSUB 1483: turns one
1019 REM   cycle
1020 REM   set E8 to i, then GOSUB 1531: finds a
1021 REM   sprite's hit box in the view: hit_left, hit_top, hit_wide,
1022 REM   hit_high
1023 REM   set F4 to i, F9 to j, then GOSUB 1544: finds
1024 REM   whether two sprites' hit boxes overlap: touching
1025 REM   set G1 to p, G2 to x, G3 to y, then GOSUB
1026 REM   1564: finds the flags of the map cell at a
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
1231 GOSUB 1587
1232 RETURN
1233 REM Puts everything to where it is at tick 0.
1234 LET A=0
1235 IF N-1<0 THEN 1246
1236 FOR V=0 TO N-1
1237 LET D(143+V)=D(125+V)
1238 LET D(144+V)=D(126+V)
1239 LET D(145+V)=0
1240 LET D(146+V)=0
1241 LET D(147+V)=0
1242 LET D(148+V)=0
1243 IF D(128+V)<>0 THEN 1245
1244 LET D(148+V)=-1
1245 NEXT V
1246 IF L-1<0 THEN 1259
1247 FOR V=0 TO L-1
1248 LET D(149+V)=D(88+V)
1249 LET D(150+V)=D(97+V)
1250 LET D(151+V)=D(89+V)
1251 LET D(152+V)=D(98+V)
1252 LET D(153+V)=0
1253 LET D(154+V)=0
1254 LET D(155+V)=D(90+V)
1255 LET D(156+V)=D(99+V)
1256 LET W=V
1257 GOSUB 1448
1258 NEXT V
1259 IF M-1<0 THEN 1267
1260 FOR V=0 TO M-1
1261 LET D(158+V)=D(142+V)
1262 LET D(157+V)=D(141+V)
1263 LET D(159+V)=-1
1264 LET X=V
1265 GOSUB 1378
1266 NEXT V
1267 IF N-1<1 THEN 1272
1268 FOR V=1 TO N-1
1269 LET Y=V
1270 GOSUB 1366
1271 NEXT V
1272 IF O-1<0 THEN 1278
1273 FOR V=0 TO O-1
1274 LET D(163+V)=0
1275 LET D(165+V)=0
1276 LET D(164+V)=D(51+V)
1277 NEXT V
1278 IF P-1<0 THEN 1283
1279 FOR V=0 TO P-1
1280 LET D(168+V)=0
1281 LET D(169+V)=D(54+V)
1282 NEXT V
1283 IF Q-1<0 THEN 1290
1284 FOR V=0 TO Q-1
1285 LET D(166+V)=0
1286 LET D(167+V)=0
1287 LET Z=V
1288 GOSUB 1322
1289 NEXT V
1290 GOSUB 1495
1291 RETURN
1292 REM One tick: camera, planes, sprites, animations and palette go
1293 REM on.
1294 LET A=A+1
1295 LET A0=D(143)
1296 LET A1=D(144)
1297 LET A2=0
1298 GOSUB 1329
1299 LET A3=D(143)-A0
1300 LET A4=D(144)-A1
1301 GOSUB 1408
1302 IF L-1<0 THEN 1307
1303 FOR A5=0 TO L-1
1304 LET A6=A5
1305 GOSUB 1433
1306 NEXT A5
1307 IF M-1<0 THEN 1314
1308 FOR A5=0 TO M-1
1309 LET A7=A5
1310 GOSUB 1397
1311 LET A2=A5+1
1312 GOSUB 1329
1313 NEXT A5
1314 IF Q-1<0 THEN 1319
1315 FOR A5=0 TO Q-1
1316 LET Z=A5
1317 GOSUB 1322
1318 NEXT A5
1319 GOSUB 1462
1320 RETURN
1321 REM Lets transition I turn the cells of this tick.
1322 IF A<D(61+Z) THEN 1326
1323 IF D(166+Z)>=D(62+Z) THEN 1326
1324 LET D(166+Z)=D(166+Z)+1
1325 LET D(167+Z)=D(72+D(70+Z)+D(166+Z))
1326 RETURN
1327 REM Carries mover M along its path by one tick; mover 0 is the
1328 REM camera, mover I + 1 sprite I.
1329 LET A8=D(148+A2)
1330 IF A8>=0 THEN 1332
1331 RETURN
1332 LET A8=D(127+A2)+A8
1333 LET D(143+A2)=D(143+A2)+D(131+A8)
1334 LET D(145+A2)=D(145+A2)+D(132+A8)
1335 IF D(145+A2)<D(133+A8) THEN 1338
1336 LET D(145+A2)=D(145+A2)-D(133+A8)
1337 LET D(143+A2)=D(143+A2)+1
1338 LET D(144+A2)=D(144+A2)+D(134+A8)
1339 LET D(146+A2)=D(146+A2)+D(135+A8)
1340 IF D(146+A2)<D(136+A8) THEN 1343
1341 LET D(146+A2)=D(146+A2)-D(136+A8)
1342 LET D(144+A2)=D(144+A2)+1
1343 LET D(147+A2)=D(147+A2)+1
1344 IF D(147+A2)<>D(130+A8) THEN 1347
1345 LET A9=A2
1346 GOSUB 1349
1347 RETURN
1348 REM Goes to the next segment of mover M's path.
1349 LET D(147+A9)=0
1350 LET D(145+A9)=0
1351 LET D(146+A9)=0
1352 LET D(148+A9)=D(148+A9)+1
1353 IF D(148+A9)<>D(128+A9) THEN 1360
1354 LET D(148+A9)=0
1355 IF D(129+A9)<>0 THEN 1357
1356 LET D(148+A9)=-1
1357 IF D(129+A9)<>1 THEN 1360
1358 LET D(143+A9)=D(125+A9)
1359 LET D(144+A9)=D(126+A9)
1360 IF A9<=0 THEN 1363
1361 LET Y=A9
1362 GOSUB 1366
1363 RETURN
1364 REM Takes the animation and facing that mover M's segment asks
1365 REM for.
1366 IF D(148+Y)>=0 THEN 1368
1367 RETURN
1368 LET B0=D(127+Y)+D(148+Y)
1369 IF D(137+B0)<0 THEN 1371
1370 LET D(157+Y-1)=D(137+B0)
1371 IF D(138+B0)<0 THEN 1373
1372 LET D(158+Y-1)=D(138+B0)
1373 LET X=Y-1
1374 GOSUB 1378
1375 RETURN
1376 REM Chooses what sprite I shows for its animation and facing; a
1377 REM new animation begins at its first step.
1378 LET B1=D(124+D(139+X)+4*D(157+X)+D(158+X))
1379 LET D(160+X)=(B1-4*INT(B1/4))
1380 LET B1=INT(B1/4)
1381 IF B1=D(159+X) THEN 1385
1382 LET D(159+X)=B1
1383 LET D(161+X)=0
1384 LET D(162+X)=D(122+D(118+B1))
1385 RETURN
1386 REM Makes sprite I do animation N of its own list.
1387 LET D(157+B2)=B3
1388 LET X=B2
1389 GOSUB 1378
1390 RETURN
1391 REM Turns sprite I to facing F: 0 right, 1 left, 2 up, 3 down.
1392 LET D(158+B4)=B5
1393 LET X=B4
1394 GOSUB 1378
1395 RETURN
1396 REM Plays sprite I's animation on by one tick.
1397 LET B6=D(159+A7)
1398 LET D(162+A7)=D(162+A7)-1
1399 IF D(162+A7)<>0 THEN 1406
1400 LET D(161+A7)=D(161+A7)+1
1401 IF D(161+A7)<>D(119+B6) THEN 1405
1402 LET D(161+A7)=0
1403 IF D(120+B6)<>0 THEN 1405
1404 LET D(161+A7)=D(119+B6)-1
1405 LET D(162+A7)=D(122+D(118+B6)+D(161+A7))
1406 RETURN
1407 REM Scrolls every plane for a camera that moved by U, V pixels.
1408 IF L-1<0 THEN 1431
1409 FOR B7=0 TO L-1
1410 LET D(151+B7)=D(151+B7)+D(83+B7)*A3
1411 IF D(151+B7)>=0 THEN 1415
1412 LET D(151+B7)=D(151+B7)+D(84+B7)
1413 LET D(149+B7)=D(149+B7)-1
1414 GOTO 1411
1415 IF D(151+B7)<D(84+B7) THEN 1419
1416 LET D(151+B7)=D(151+B7)-D(84+B7)
1417 LET D(149+B7)=D(149+B7)+1
1418 GOTO 1415
1419 LET D(152+B7)=D(152+B7)+D(92+B7)*A4
1420 IF D(152+B7)>=0 THEN 1424
1421 LET D(152+B7)=D(152+B7)+D(93+B7)
1422 LET D(150+B7)=D(150+B7)-1
1423 GOTO 1420
1424 IF D(152+B7)<D(93+B7) THEN 1428
1425 LET D(152+B7)=D(152+B7)-D(93+B7)
1426 LET D(150+B7)=D(150+B7)+1
1427 GOTO 1424
1428 LET W=B7
1429 GOSUB 1448
1430 NEXT B7
1431 RETURN
1432 REM Lets plane I drift by one tick.
1433 LET D(149+A6)=D(149+A6)+D(85+A6)
1434 LET D(153+A6)=D(153+A6)+D(86+A6)
1435 IF D(153+A6)<D(87+A6) THEN 1438
1436 LET D(153+A6)=D(153+A6)-D(87+A6)
1437 LET D(149+A6)=D(149+A6)+1
1438 LET D(150+A6)=D(150+A6)+D(94+A6)
1439 LET D(154+A6)=D(154+A6)+D(95+A6)
1440 IF D(154+A6)<D(96+A6) THEN 1443
1441 LET D(154+A6)=D(154+A6)-D(96+A6)
1442 LET D(150+A6)=D(150+A6)+1
1443 LET W=A6
1444 GOSUB 1448
1445 RETURN
1446 REM Keeps the picture's pixel at the view's corner within the
1447 REM picture, for planes that repeat.
1448 IF D(149+W)-D(155+W)>=0 THEN 1451
1449 LET D(155+W)=D(155+W)-D(79+W)
1450 GOTO 1448
1451 IF D(149+W)-D(155+W)<D(79+W) THEN 1454
1452 LET D(155+W)=D(155+W)+D(79+W)
1453 GOTO 1451
1454 IF D(150+W)-D(156+W)>=0 THEN 1457
1455 LET D(156+W)=D(156+W)-D(80+W)
1456 GOTO 1454
1457 IF D(150+W)-D(156+W)<D(80+W) THEN 1460
1458 LET D(156+W)=D(156+W)+D(80+W)
1459 GOTO 1457
1460 RETURN
1461 REM Turns the cycles and takes the palette events that are due.
1462 LET B8=0
1463 IF O-1<0 THEN 1471
1464 FOR B9=0 TO O-1
1465 LET D(164+B9)=D(164+B9)-1
1466 IF D(164+B9)<>0 THEN 1470
1467 LET C0=B9
1468 GOSUB 1483
1469 LET B8=1
1470 NEXT B9
1471 IF P-1<0 THEN 1479
1472 FOR B9=0 TO P-1
1473 IF D(168+B9)>=D(55+B9) THEN 1478
1474 IF A<D(169+B9) THEN 1478
1475 LET D(168+B9)=D(168+B9)+1
1476 LET D(169+B9)=D(169+B9)+D(56+B9)
1477 LET B8=1
1478 NEXT B9
1479 IF B8<>1 THEN 1481
1480 GOSUB 1495
1481 RETURN
1482 REM Turns cycle I by one entry.
1483 LET D(164+C0)=D(51+C0)
1484 LET C1=D(165+C0)+1
1485 LET D(165+C0)=(C1-D(52+C0)*INT(C1/D(52+C0)))
1486 LET D(163+C0)=D(165+C0)
1487 IF D(165+C0)<D(50+C0) THEN 1489
1488 LET D(163+C0)=D(52+C0)-D(165+C0)
1489 IF D(53+C0)<>1 THEN 1492
1490 LET C2=D(50+C0)-D(163+C0)
1491 LET D(163+C0)=(C2-D(50+C0)*INT(C2/D(50+C0)))
1492 RETURN
1493 REM Works out which colour each moving entry has now: cycles
1494 REM first, then events.
1495 IF O-1<0 THEN 1504
1496 FOR C3=0 TO O-1
1497 IF D(50+C3)-1<0 THEN 1503
1498 FOR C4=0 TO D(50+C3)-1
1499 LET C6=C4+D(50+C3)-D(163+C3)
1500 LET C5=(C6-D(50+C3)*INT(C6/D(50+C3)))
1501 LET D(170+D(49+C3)+C4)=D(49+C3)+C5
1502 NEXT C4
1503 NEXT C3
1504 IF P-1<0 THEN 1512
1505 FOR C3=0 TO P-1
1506 IF D(168+C3)<=0 THEN 1511
1507 IF D(58+C3)-1<0 THEN 1511
1508 FOR C4=0 TO D(58+C3)-1
1509 LET D(170+D(60+D(57+C3)+C4))=D(59+C3)+(D(168+C3)-1)*D(58+C3)+C4
1510 NEXT C4
1511 NEXT C3
1512 RETURN
1513 REM Finds out the frame, flip and place in the view of sprite I.
1514 LET C7=D(144+C8)
1515 LET C9=D(145+C8)
1516 IF D(140+C8)<0 THEN 1519
1517 LET C7=C7-D(149+D(140+C8))
1518 LET C9=C9-D(150+D(140+C8))
1519 LET E0=D(118+D(159+C8))+D(161+C8)
1520 LET E1=D(121+E0)
1521 LET E4=(D(123+E0)-2*INT(D(123+E0)/2))
1522 LET E3=E4+(D(160+C8)-2*INT(D(160+C8)/2))
1523 LET E2=(E3-2*INT(E3/2))
1524 LET E7=INT(D(123+E0)/2)+INT(D(160+C8)/2)
1525 LET E6=(E7-2*INT(E7/2))
1526 LET E5=E6*2
1527 LET E2=E2+E5
1528 RETURN
1529 REM Finds out the hit box of sprite I in the view; its width is
1530 REM 0 when it has none.
1531 LET C8=E8
1532 GOSUB 1514
1533 LET E9=D(116+E1)
1534 LET F0=D(117+E1)
1535 LET F1=C7+D(114+E1)
1536 IF (E2-2*INT(E2/2))<>1 THEN 1538
1537 LET F1=C7-D(114+E1)-E9+1
1538 LET F2=C9+D(115+E1)
1539 IF INT(E2/2)<>1 THEN 1541
1540 LET F2=C9-D(115+E1)-F0+1
1541 RETURN
1542 REM Finds out whether the hit boxes of sprites I and J overlap:
1543 REM touching is 1 or 0.
1544 LET F3=0
1545 LET E8=F4
1546 GOSUB 1531
1547 LET F5=F1
1548 LET F6=F2
1549 LET F7=E9
1550 LET F8=F0
1551 LET E8=F9
1552 GOSUB 1531
1553 IF F7=0 THEN 1555
1554 IF E9<>0 THEN 1556
1555 RETURN
1556 IF F5>=F1+E9 THEN 1561
1557 IF F1>=F5+F7 THEN 1561
1558 IF F6>=F2+F0 THEN 1561
1559 IF F2>=F6+F8 THEN 1561
1560 LET F3=1
1561 RETURN
1562 REM Finds out the flags of the map cell at pixel X, Y of plane
1563 REM P, 0 outside: flags, added up.
1564 LET G0=0
1565 IF D(104+G1)>=0 THEN 1567
1566 RETURN
1567 IF D(82+G1)<>1 THEN 1572
1568 IF G2>=0 THEN 1571
1569 LET G2=G2+D(79+G1)
1570 GOTO 1568
1571 LET G2=(G2-D(79+G1)*INT(G2/D(79+G1)))
1572 IF D(91+G1)<>1 THEN 1577
1573 IF G3>=0 THEN 1576
1574 LET G3=G3+D(80+G1)
1575 GOTO 1573
1576 LET G3=(G3-D(80+G1)*INT(G3/D(80+G1)))
1577 IF G2<0 THEN 1581
1578 IF G3<0 THEN 1581
1579 IF G2>=D(79+G1) THEN 1581
1580 IF G3<D(80+G1) THEN 1582
1581 RETURN
1582 LET G4=G1
1583 LET G5=INT(G3/D(107+G1))*D(105+G1)+INT(G2/D(106+G1))
1584 GOSUB 1602
1585 RETURN
1586 REM Every entry starts with its own colour.
1587 IF I-1<0 THEN 1591
1588 FOR G6=0 TO I-1
1589 LET D(170+G6)=G6
1590 NEXT G6
1591 RETURN
1592 REM Moves the camera to X, Y in the world.
1593 LET G7=G8-D(143)
1594 LET G9=H0-D(144)
1595 LET D(143)=G8
1596 LET D(144)=H0
1597 LET A3=G7
1598 LET A4=G9
1599 GOSUB 1408
1600 RETURN
1601 REM Finds the flags of cell N of plane P.
1602 LET G0=D(108+D(104+G4)+G5)
1603 RETURN
1604 REM red: 0 to 255, by colour; the palette's entries come first
1605 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1606 REM green: 0 to 255, by colour; the palette's entries come first
1607 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1608 REM blue: 0 to 255, by colour; the palette's entries come first
1609 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0
1610 REM plane_columns: columns of each plane's map
1611 DATA 1
1612 REM plane_rows: rows
1613 DATA 1
1614 REM tile_w: pixels of a cell
1615 DATA 8
1616 REM tile_h
1617 DATA 8
1618 REM last_w: pixels of the last column's cells
1619 DATA 8
1620 REM last_h: and of the last row's
1621 DATA 8
1622 REM plane_w: pixels of the whole picture
1623 DATA 8
1624 REM plane_h
1625 DATA 8
1626 REM map_first: first cell in map_cell
1627 DATA 0
1628 REM wrap_x: 1 when it repeats along x
1629 DATA 1
1630 REM ratio_x: scroll ratio along x: this many
1631 DATA 1
1632 REM ratio_parts_x: parts of so many
1633 DATA 1
1634 REM drift_x: pixels it drifts a tick along x
1635 DATA 0
1636 REM drift_step_x: and this many
1637 DATA 0
1638 REM drift_parts_x: parts of so many
1639 DATA 1
1640 REM plane_start_x: scroll at tick 0 along x
1641 DATA 0
1642 REM plane_start_part_x: and its parts
1643 DATA 0
1644 REM start_base_x: whole pictures scrolled by at tick 0
1645 DATA 0
1646 REM wrap_y: 1 when it repeats along y
1647 DATA 0
1648 REM ratio_y: scroll ratio along y: this many
1649 DATA 1
1650 REM ratio_parts_y: parts of so many
1651 DATA 1
1652 REM drift_y: pixels it drifts a tick along y
1653 DATA 0
1654 REM drift_step_y: and this many
1655 DATA 0
1656 REM drift_parts_y: parts of so many
1657 DATA 1
1658 REM plane_start_y: scroll at tick 0 along y
1659 DATA 0
1660 REM plane_start_part_y: and its parts
1661 DATA 0
1662 REM start_base_y: whole pictures scrolled by at tick 0
1663 DATA 0
1664 REM map_cell: 4 x tile + flip, -1 is empty
1665 DATA 0
1666 REM piece_w: pixels of each piece: tiles, then frames
1667 DATA 8
1668 REM piece_h
1669 DATA 8
1670 REM order: drawing order: planes, then planes + sprite
1671 DATA 0
1672 REM flag_first: first place in flag_cell, -1 when a plane has no
1673 REM flags
1674 DATA -1
1675 REM flag_columns: columns of its map
1676 DATA 0
1677 REM flag_w: pixels of a cell
1678 DATA 1
1679 REM flag_h
1680 DATA 1
1681 REM start_x: start places: camera first, then sprites
1682 DATA 0
1683 REM start_y
1684 DATA 0
1685 REM path_first: first segment of each path
1686 DATA 0
1687 REM path_count: its segments
1688 DATA 0
1689 REM path_repeat: after the last: 0 stay, 1 from the start place,
1690 REM 2 onward
1691 DATA 0
1692 END
