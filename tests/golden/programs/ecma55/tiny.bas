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
1010 REM   set G8 to x, H0 to y, then GOSUB 1587:
1011 REM   moves the camera
1012 REM   set B3 to i, B4 to f, then GOSUB 1386: turns a
1013 REM   sprite
1014 REM   set B1 to i, B2 to n, then GOSUB 1381: gives a
1015 REM   sprite another animation
1016 REM   set B6 to i, then GOSUB 1391: plays one
1017 REM   sprite's animation on
1018 REM   set C0 to i, then GOSUB 1477: turns one
1019 REM   cycle
1020 REM   set E8 to i, then GOSUB 1525: finds a
1021 REM   sprite's hit box in the view: hit_left, hit_top, hit_wide,
1022 REM   hit_high
1023 REM   set F4 to i, F9 to j, then GOSUB 1538: finds
1024 REM   whether two sprites' hit boxes overlap: touching
1025 REM   set G1 to p, G2 to x, G3 to y, then GOSUB
1026 REM   1558: finds the flags of the map cell at a
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
1231 GOSUB 1581
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
1257 GOSUB 1442
1258 NEXT V
1259 IF M-1<0 THEN 1267
1260 FOR V=0 TO M-1
1261 LET D(158+V)=D(142+V)
1262 LET D(157+V)=D(141+V)
1263 LET D(159+V)=-1
1264 LET X=V
1265 GOSUB 1372
1266 NEXT V
1267 IF N-1<1 THEN 1272
1268 FOR V=1 TO N-1
1269 LET Y=V
1270 GOSUB 1360
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
1288 GOSUB 1316
1289 NEXT V
1290 GOSUB 1489
1291 RETURN
1292 REM One tick: camera, planes, sprites, animations and palette go
1293 REM on.
1294 LET A=A+1
1295 LET A0=D(143)
1296 LET A1=D(144)
1297 LET A2=0
1298 GOSUB 1323
1299 LET A3=D(143)-A0
1300 LET A4=D(144)-A1
1301 GOSUB 1402
1302 IF L-1<0 THEN 1307
1303 FOR A5=0 TO L-1
1304 LET A6=A5
1305 GOSUB 1427
1306 NEXT A5
1307 GOSUB 1599
1308 IF Q-1<0 THEN 1313
1309 FOR A5=0 TO Q-1
1310 LET Z=A5
1311 GOSUB 1316
1312 NEXT A5
1313 GOSUB 1456
1314 RETURN
1315 REM Lets transition I turn the cells of this tick.
1316 IF A<D(61+Z) THEN 1320
1317 IF D(166+Z)>=D(62+Z) THEN 1320
1318 LET D(166+Z)=D(166+Z)+1
1319 LET D(167+Z)=D(72+D(70+Z)+D(166+Z))
1320 RETURN
1321 REM Carries mover M along its path by one tick; mover 0 is the
1322 REM camera, mover I + 1 sprite I.
1323 LET A7=D(148+A2)
1324 IF A7>=0 THEN 1326
1325 RETURN
1326 LET A7=D(127+A2)+A7
1327 LET D(143+A2)=D(143+A2)+D(131+A7)
1328 LET D(145+A2)=D(145+A2)+D(132+A7)
1329 IF D(145+A2)<D(133+A7) THEN 1332
1330 LET D(145+A2)=D(145+A2)-D(133+A7)
1331 LET D(143+A2)=D(143+A2)+1
1332 LET D(144+A2)=D(144+A2)+D(134+A7)
1333 LET D(146+A2)=D(146+A2)+D(135+A7)
1334 IF D(146+A2)<D(136+A7) THEN 1337
1335 LET D(146+A2)=D(146+A2)-D(136+A7)
1336 LET D(144+A2)=D(144+A2)+1
1337 LET D(147+A2)=D(147+A2)+1
1338 IF D(147+A2)<>D(130+A7) THEN 1341
1339 LET A8=A2
1340 GOSUB 1343
1341 RETURN
1342 REM Goes to the next segment of mover M's path.
1343 LET D(147+A8)=0
1344 LET D(145+A8)=0
1345 LET D(146+A8)=0
1346 LET D(148+A8)=D(148+A8)+1
1347 IF D(148+A8)<>D(128+A8) THEN 1354
1348 LET D(148+A8)=0
1349 IF D(129+A8)<>0 THEN 1351
1350 LET D(148+A8)=-1
1351 IF D(129+A8)<>1 THEN 1354
1352 LET D(143+A8)=D(125+A8)
1353 LET D(144+A8)=D(126+A8)
1354 IF A8<=0 THEN 1357
1355 LET Y=A8
1356 GOSUB 1360
1357 RETURN
1358 REM Takes the animation and facing that mover M's segment asks
1359 REM for.
1360 IF D(148+Y)>=0 THEN 1362
1361 RETURN
1362 LET A9=D(127+Y)+D(148+Y)
1363 IF D(137+A9)<0 THEN 1365
1364 LET D(157+Y-1)=D(137+A9)
1365 IF D(138+A9)<0 THEN 1367
1366 LET D(158+Y-1)=D(138+A9)
1367 LET X=Y-1
1368 GOSUB 1372
1369 RETURN
1370 REM Chooses what sprite I shows for its animation and facing; a
1371 REM new animation begins at its first step.
1372 LET B0=D(124+D(139+X)+4*D(157+X)+D(158+X))
1373 LET D(160+X)=(B0-4*INT(B0/4))
1374 LET B0=INT(B0/4)
1375 IF B0=D(159+X) THEN 1379
1376 LET D(159+X)=B0
1377 LET D(161+X)=0
1378 LET D(162+X)=D(122+D(118+B0))
1379 RETURN
1380 REM Makes sprite I do animation N of its own list.
1381 LET D(157+B1)=B2
1382 LET X=B1
1383 GOSUB 1372
1384 RETURN
1385 REM Turns sprite I to facing F: 0 right, 1 left, 2 up, 3 down.
1386 LET D(158+B3)=B4
1387 LET X=B3
1388 GOSUB 1372
1389 RETURN
1390 REM Plays sprite I's animation on by one tick.
1391 LET B5=D(159+B6)
1392 LET D(162+B6)=D(162+B6)-1
1393 IF D(162+B6)<>0 THEN 1400
1394 LET D(161+B6)=D(161+B6)+1
1395 IF D(161+B6)<>D(119+B5) THEN 1399
1396 LET D(161+B6)=0
1397 IF D(120+B5)<>0 THEN 1399
1398 LET D(161+B6)=D(119+B5)-1
1399 LET D(162+B6)=D(122+D(118+B5)+D(161+B6))
1400 RETURN
1401 REM Scrolls every plane for a camera that moved by U, V pixels.
1402 IF L-1<0 THEN 1425
1403 FOR B7=0 TO L-1
1404 LET D(151+B7)=D(151+B7)+D(83+B7)*A3
1405 IF D(151+B7)>=0 THEN 1409
1406 LET D(151+B7)=D(151+B7)+D(84+B7)
1407 LET D(149+B7)=D(149+B7)-1
1408 GOTO 1405
1409 IF D(151+B7)<D(84+B7) THEN 1413
1410 LET D(151+B7)=D(151+B7)-D(84+B7)
1411 LET D(149+B7)=D(149+B7)+1
1412 GOTO 1409
1413 LET D(152+B7)=D(152+B7)+D(92+B7)*A4
1414 IF D(152+B7)>=0 THEN 1418
1415 LET D(152+B7)=D(152+B7)+D(93+B7)
1416 LET D(150+B7)=D(150+B7)-1
1417 GOTO 1414
1418 IF D(152+B7)<D(93+B7) THEN 1422
1419 LET D(152+B7)=D(152+B7)-D(93+B7)
1420 LET D(150+B7)=D(150+B7)+1
1421 GOTO 1418
1422 LET W=B7
1423 GOSUB 1442
1424 NEXT B7
1425 RETURN
1426 REM Lets plane I drift by one tick.
1427 LET D(149+A6)=D(149+A6)+D(85+A6)
1428 LET D(153+A6)=D(153+A6)+D(86+A6)
1429 IF D(153+A6)<D(87+A6) THEN 1432
1430 LET D(153+A6)=D(153+A6)-D(87+A6)
1431 LET D(149+A6)=D(149+A6)+1
1432 LET D(150+A6)=D(150+A6)+D(94+A6)
1433 LET D(154+A6)=D(154+A6)+D(95+A6)
1434 IF D(154+A6)<D(96+A6) THEN 1437
1435 LET D(154+A6)=D(154+A6)-D(96+A6)
1436 LET D(150+A6)=D(150+A6)+1
1437 LET W=A6
1438 GOSUB 1442
1439 RETURN
1440 REM Keeps the picture's pixel at the view's corner within the
1441 REM picture, for planes that repeat.
1442 IF D(149+W)-D(155+W)>=0 THEN 1445
1443 LET D(155+W)=D(155+W)-D(79+W)
1444 GOTO 1442
1445 IF D(149+W)-D(155+W)<D(79+W) THEN 1448
1446 LET D(155+W)=D(155+W)+D(79+W)
1447 GOTO 1445
1448 IF D(150+W)-D(156+W)>=0 THEN 1451
1449 LET D(156+W)=D(156+W)-D(80+W)
1450 GOTO 1448
1451 IF D(150+W)-D(156+W)<D(80+W) THEN 1454
1452 LET D(156+W)=D(156+W)+D(80+W)
1453 GOTO 1451
1454 RETURN
1455 REM Turns the cycles and takes the palette events that are due.
1456 LET B8=0
1457 IF O-1<0 THEN 1465
1458 FOR B9=0 TO O-1
1459 LET D(164+B9)=D(164+B9)-1
1460 IF D(164+B9)<>0 THEN 1464
1461 LET C0=B9
1462 GOSUB 1477
1463 LET B8=1
1464 NEXT B9
1465 IF P-1<0 THEN 1473
1466 FOR B9=0 TO P-1
1467 IF D(168+B9)>=D(55+B9) THEN 1472
1468 IF A<D(169+B9) THEN 1472
1469 LET D(168+B9)=D(168+B9)+1
1470 LET D(169+B9)=D(169+B9)+D(56+B9)
1471 LET B8=1
1472 NEXT B9
1473 IF B8<>1 THEN 1475
1474 GOSUB 1489
1475 RETURN
1476 REM Turns cycle I by one entry.
1477 LET D(164+C0)=D(51+C0)
1478 LET C1=D(165+C0)+1
1479 LET D(165+C0)=(C1-D(52+C0)*INT(C1/D(52+C0)))
1480 LET D(163+C0)=D(165+C0)
1481 IF D(165+C0)<D(50+C0) THEN 1483
1482 LET D(163+C0)=D(52+C0)-D(165+C0)
1483 IF D(53+C0)<>1 THEN 1486
1484 LET C2=D(50+C0)-D(163+C0)
1485 LET D(163+C0)=(C2-D(50+C0)*INT(C2/D(50+C0)))
1486 RETURN
1487 REM Works out which colour each moving entry has now: cycles
1488 REM first, then events.
1489 IF O-1<0 THEN 1498
1490 FOR C3=0 TO O-1
1491 IF D(50+C3)-1<0 THEN 1497
1492 FOR C4=0 TO D(50+C3)-1
1493 LET C6=C4+D(50+C3)-D(163+C3)
1494 LET C5=(C6-D(50+C3)*INT(C6/D(50+C3)))
1495 LET D(170+D(49+C3)+C4)=D(49+C3)+C5
1496 NEXT C4
1497 NEXT C3
1498 IF P-1<0 THEN 1506
1499 FOR C3=0 TO P-1
1500 IF D(168+C3)<=0 THEN 1505
1501 IF D(58+C3)-1<0 THEN 1505
1502 FOR C4=0 TO D(58+C3)-1
1503 LET D(170+D(60+D(57+C3)+C4))=D(59+C3)+(D(168+C3)-1)*D(58+C3)+C4
1504 NEXT C4
1505 NEXT C3
1506 RETURN
1507 REM Finds out the frame, flip and place in the view of sprite I.
1508 LET C7=D(144+C8)
1509 LET C9=D(145+C8)
1510 IF D(140+C8)<0 THEN 1513
1511 LET C7=C7-D(149+D(140+C8))
1512 LET C9=C9-D(150+D(140+C8))
1513 LET E0=D(118+D(159+C8))+D(161+C8)
1514 LET E1=D(121+E0)
1515 LET E4=(D(123+E0)-2*INT(D(123+E0)/2))
1516 LET E3=E4+(D(160+C8)-2*INT(D(160+C8)/2))
1517 LET E2=(E3-2*INT(E3/2))
1518 LET E7=INT(D(123+E0)/2)+INT(D(160+C8)/2)
1519 LET E6=(E7-2*INT(E7/2))
1520 LET E5=E6*2
1521 LET E2=E2+E5
1522 RETURN
1523 REM Finds out the hit box of sprite I in the view; its width is
1524 REM 0 when it has none.
1525 LET C8=E8
1526 GOSUB 1508
1527 LET E9=D(116+E1)
1528 LET F0=D(117+E1)
1529 LET F1=C7+D(114+E1)
1530 IF (E2-2*INT(E2/2))<>1 THEN 1532
1531 LET F1=C7-D(114+E1)-E9+1
1532 LET F2=C9+D(115+E1)
1533 IF INT(E2/2)<>1 THEN 1535
1534 LET F2=C9-D(115+E1)-F0+1
1535 RETURN
1536 REM Finds out whether the hit boxes of sprites I and J overlap:
1537 REM touching is 1 or 0.
1538 LET F3=0
1539 LET E8=F4
1540 GOSUB 1525
1541 LET F5=F1
1542 LET F6=F2
1543 LET F7=E9
1544 LET F8=F0
1545 LET E8=F9
1546 GOSUB 1525
1547 IF F7=0 THEN 1549
1548 IF E9<>0 THEN 1550
1549 RETURN
1550 IF F5>=F1+E9 THEN 1555
1551 IF F1>=F5+F7 THEN 1555
1552 IF F6>=F2+F0 THEN 1555
1553 IF F2>=F6+F8 THEN 1555
1554 LET F3=1
1555 RETURN
1556 REM Finds out the flags of the map cell at pixel X, Y of plane
1557 REM P, 0 outside: flags, added up.
1558 LET G0=0
1559 IF D(104+G1)>=0 THEN 1561
1560 RETURN
1561 IF D(82+G1)<>1 THEN 1566
1562 IF G2>=0 THEN 1565
1563 LET G2=G2+D(79+G1)
1564 GOTO 1562
1565 LET G2=(G2-D(79+G1)*INT(G2/D(79+G1)))
1566 IF D(91+G1)<>1 THEN 1571
1567 IF G3>=0 THEN 1570
1568 LET G3=G3+D(80+G1)
1569 GOTO 1567
1570 LET G3=(G3-D(80+G1)*INT(G3/D(80+G1)))
1571 IF G2<0 THEN 1575
1572 IF G3<0 THEN 1575
1573 IF G2>=D(79+G1) THEN 1575
1574 IF G3<D(80+G1) THEN 1576
1575 RETURN
1576 LET G4=G1
1577 LET G5=INT(G3/D(107+G1))*D(105+G1)+INT(G2/D(106+G1))
1578 GOSUB 1596
1579 RETURN
1580 REM Every entry starts with its own colour.
1581 IF I-1<0 THEN 1585
1582 FOR G6=0 TO I-1
1583 LET D(170+G6)=G6
1584 NEXT G6
1585 RETURN
1586 REM Moves the camera to X, Y in the world.
1587 LET G7=G8-D(143)
1588 LET G9=H0-D(144)
1589 LET D(143)=G8
1590 LET D(144)=H0
1591 LET A3=G7
1592 LET A4=G9
1593 GOSUB 1402
1594 RETURN
1595 REM Finds the flags of cell N of plane P.
1596 LET G0=D(108+D(104+G4)+G5)
1597 RETURN
1598 REM Lets every sprite go on by one tick.
1599 IF M-1<0 THEN 1606
1600 FOR H1=0 TO M-1
1601 LET B6=H1
1602 GOSUB 1391
1603 LET A2=H1+1
1604 GOSUB 1323
1605 NEXT H1
1606 RETURN
1607 REM red: 0 to 255, by colour; the palette's entries come first
1608 DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1609 REM green: 0 to 255, by colour; the palette's entries come first
1610 DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
1611 REM blue: 0 to 255, by colour; the palette's entries come first
1612 DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0
1613 REM plane_columns: columns of each plane's map
1614 DATA 1
1615 REM plane_rows: rows
1616 DATA 1
1617 REM tile_w: pixels of a cell
1618 DATA 8
1619 REM tile_h
1620 DATA 8
1621 REM last_w: pixels of the last column's cells
1622 DATA 8
1623 REM last_h: and of the last row's
1624 DATA 8
1625 REM plane_w: pixels of the whole picture
1626 DATA 8
1627 REM plane_h
1628 DATA 8
1629 REM map_first: first cell in map_cell
1630 DATA 0
1631 REM wrap_x: 1 when it repeats along x
1632 DATA 1
1633 REM ratio_x: scroll ratio along x: this many
1634 DATA 1
1635 REM ratio_parts_x: parts of so many
1636 DATA 1
1637 REM drift_x: pixels it drifts a tick along x
1638 DATA 0
1639 REM drift_step_x: and this many
1640 DATA 0
1641 REM drift_parts_x: parts of so many
1642 DATA 1
1643 REM plane_start_x: scroll at tick 0 along x
1644 DATA 0
1645 REM plane_start_part_x: and its parts
1646 DATA 0
1647 REM start_base_x: whole pictures scrolled by at tick 0
1648 DATA 0
1649 REM wrap_y: 1 when it repeats along y
1650 DATA 0
1651 REM ratio_y: scroll ratio along y: this many
1652 DATA 1
1653 REM ratio_parts_y: parts of so many
1654 DATA 1
1655 REM drift_y: pixels it drifts a tick along y
1656 DATA 0
1657 REM drift_step_y: and this many
1658 DATA 0
1659 REM drift_parts_y: parts of so many
1660 DATA 1
1661 REM plane_start_y: scroll at tick 0 along y
1662 DATA 0
1663 REM plane_start_part_y: and its parts
1664 DATA 0
1665 REM start_base_y: whole pictures scrolled by at tick 0
1666 DATA 0
1667 REM map_cell: 4 x tile + flip, -1 is empty
1668 DATA 0
1669 REM piece_w: pixels of each piece: tiles, then frames
1670 DATA 8
1671 REM piece_h
1672 DATA 8
1673 REM order: drawing order: planes, then planes + sprite
1674 DATA 0
1675 REM flag_first: first place in flag_cell, -1 when a plane has no
1676 REM flags
1677 DATA -1
1678 REM flag_columns: columns of its map
1679 DATA 0
1680 REM flag_w: pixels of a cell
1681 DATA 1
1682 REM flag_h
1683 DATA 1
1684 REM start_x: start places: camera first, then sprites
1685 DATA 0
1686 REM start_y
1687 DATA 0
1688 REM path_first: first segment of each path
1689 DATA 0
1690 REM path_count: its segments
1691 DATA 0
1692 REM path_repeat: after the last: 0 stay, 1 from the start place,
1693 REM 2 onward
1694 DATA 0
1695 END
