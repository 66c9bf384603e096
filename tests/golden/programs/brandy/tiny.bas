REM tiny: scene tiny for target t, written by scenekit
REM Planes: 0 dot.
REM Drawing: runs, since no copy leaves out an entry here, or copies cannot follow colours
REM that move.
REM Drawn is everything in every picture.
REM Routines for your program:
REM   PROCsk_load: first of all: reads the tables, opens the display, loads the art
REM   PROCsk_start: puts everything to tick 0
REM   PROCsk_step: goes on by one tick: camera, planes, sprites, animations, palette
REM   PROCsk_draw: draws the whole view and shows it
REM   PROCsk_camera_to(x%,y%): moves the camera
REM   PROCsk_let_go(i%): takes a sprite, or with -1 the camera, off its path, for you to
REM   move
REM   PROCsk_face(i%,f%): turns a sprite
REM   PROCsk_act(i%,n%): gives a sprite another animation
REM   PROCsk_animate(i%): plays one sprite's animation on
REM   PROCsk_turn_cycle(i%): turns one cycle
REM   PROCsk_draw_plane(p%): draws one plane
REM   PROCsk_draw_actor(i%): draws one sprite
REM   PROCsk_draw_frame(n%,x%,y%,f%): draws any frame anywhere
REM   PROCsk_hit_box(i%): finds a sprite's hit box in the view: hit_left, hit_top, hit_wide,
REM   hit_high
REM   PROCsk_touch(i%,j%): finds whether two sprites' hit boxes overlap: touching
REM   PROCsk_tile_at(p%,x%,y%): finds the flags of the map cell at a pixel of a plane: flags
REM   PROCsk_steer: finds the keys that are held: steer_left, steer_right, steer_up,
REM   steer_down, steer_act
REM   PROCsk_steer_by(n%): takes a number for them, as from a script: left 1, right 2, up 4,
REM   down 8, action 16
REM   PROCsk_start_clock: begins to keep time: no refresh is missed yet
REM   PROCsk_keep_time: waits for the end of an update, then does look_at_clock; after draw,
REM   in your own loop
REM   PROCsk_look_at_clock: counts refreshes missed: missed; finds how often to step next:
REM   ticks_due
REM   PROCsk_forget_late: lets the time until now not count as late, after loading
REM Names it uses:
REM   sk_tick%, sk_page%, sk_view_w%, sk_view_h%, sk_transparent%, sk_backdrop%,
REM   sk_clear_first%, sk_entries%, sk_moving%, sk_pieces%, sk_planes%, sk_actors%,
REM   sk_movers%, sk_cycles%, sk_events%, sk_covers%, sk_order_count%, sk_ticks_per_update%,
REM   sk_pages%, sk_pose_x%, sk_pose_y%, sk_pose_frame%, sk_pose_flip%, sk_hit_wide%,
REM   sk_hit_high%, sk_hit_left%, sk_hit_top%, sk_touching%, sk_flags%, sk_rows_on%,
REM   sk_steer_left%, sk_steer_right%, sk_steer_up%, sk_steer_down%, sk_steer_act%,
REM   sk_missed%, sk_clock_now%, sk_clock_last%, sk_late_us%, sk_refresh_us%, sk_ticks_due%,
REM   sk_catch_up%, sk_red%, sk_green%, sk_blue%, sk_moving_entry%, sk_cycle_first%,
REM   sk_cycle_count%, sk_cycle_ticks%, sk_cycle_period%, sk_cycle_back%, sk_event_tick%,
REM   sk_event_steps%, sk_event_wait%, sk_event_first%, sk_event_count%, sk_event_colour%,
REM   sk_event_entry%, sk_cover_tick%, sk_cover_ticks%, sk_cover_opens%, sk_cover_entry%,
REM   sk_cover_columns%, sk_cover_cells%, sk_cover_w%, sk_cover_h%, sk_cover_first%,
REM   sk_cover_begin%, sk_cover_cell%, sk_cover_count%, sk_plane_columns%, sk_plane_rows%,
REM   sk_tile_w%, sk_tile_h%, sk_last_w%, sk_last_h%, sk_plane_w%, sk_plane_h%,
REM   sk_map_first%, sk_wrap_x%, sk_ratio_x%, sk_ratio_parts_x%, sk_drift_x%,
REM   sk_drift_step_x%, sk_drift_parts_x%, sk_plane_start_x%, sk_plane_start_part_x%,
REM   sk_start_base_x%, sk_wrap_y%, sk_ratio_y%, sk_ratio_parts_y%, sk_drift_y%,
REM   sk_drift_step_y%, sk_drift_parts_y%, sk_plane_start_y%, sk_plane_start_part_y%,
REM   sk_start_base_y%, sk_map_cell%, sk_piece_w%, sk_piece_h%, sk_order%, sk_flag_first%,
REM   sk_flag_columns%, sk_flag_w%, sk_flag_h%, sk_flag_cell%, sk_frame_cell%, sk_frame_x%,
REM   sk_frame_y%, sk_pivot_x%, sk_pivot_y%, sk_hit_x%, sk_hit_y%, sk_hit_w%, sk_hit_h%,
REM   sk_animation_first%, sk_animation_count%, sk_animation_again%, sk_step_frame%,
REM   sk_step_ticks%, sk_step_flip%, sk_look%, sk_start_x%, sk_start_y%, sk_path_first%,
REM   sk_path_count%, sk_path_repeat%, sk_segment_ticks%, sk_segment_x%, sk_segment_part_x%,
REM   sk_segment_parts_x%, sk_segment_y%, sk_segment_part_y%, sk_segment_parts_y%,
REM   sk_segment_does%, sk_segment_face%, sk_actor_look%, sk_actor_plane%, sk_start_does%,
REM   sk_start_face%, sk_mover_x%, sk_mover_y%, sk_mover_part_x%, sk_mover_part_y%,
REM   sk_mover_used%, sk_mover_segment%, sk_plane_x%, sk_plane_y%, sk_plane_part_x%,
REM   sk_plane_part_y%, sk_drift_part_x%, sk_drift_part_y%, sk_wrap_base_x%,
REM   sk_wrap_base_y%, sk_actor_does%, sk_actor_face%, sk_actor_shows%, sk_actor_flip%,
REM   sk_actor_step%, sk_actor_left%, sk_cycle_shift%, sk_cycle_left%, sk_cycle_turn%,
REM   sk_cover_used%, sk_cover_done%, sk_event_done%, sk_event_next%, sk_now%, sk_shown%,
REM   sk_piece_run%, sk_run_x%, sk_run_y%, sk_run_length%, sk_run_entry%, sk_file%.
REM Reads the tables, opens the display and loads the art.
DEF PROCsk_load
  LOCAL i%
  DIM sk_red%(15)
  DIM sk_green%(15)
  DIM sk_blue%(15)
  DIM sk_moving_entry%(0)
  DIM sk_cycle_first%(0)
  DIM sk_cycle_count%(0)
  DIM sk_cycle_ticks%(0)
  DIM sk_cycle_period%(0)
  DIM sk_cycle_back%(0)
  DIM sk_event_tick%(0)
  DIM sk_event_steps%(0)
  DIM sk_event_wait%(0)
  DIM sk_event_first%(0)
  DIM sk_event_count%(0)
  DIM sk_event_colour%(0)
  DIM sk_event_entry%(0)
  DIM sk_cover_tick%(0)
  DIM sk_cover_ticks%(0)
  DIM sk_cover_opens%(0)
  DIM sk_cover_entry%(0)
  DIM sk_cover_columns%(0)
  DIM sk_cover_cells%(0)
  DIM sk_cover_w%(0)
  DIM sk_cover_h%(0)
  DIM sk_cover_first%(0)
  DIM sk_cover_begin%(0)
  DIM sk_cover_cell%(0)
  DIM sk_cover_count%(0)
  DIM sk_plane_columns%(0)
  DIM sk_plane_rows%(0)
  DIM sk_tile_w%(0)
  DIM sk_tile_h%(0)
  DIM sk_last_w%(0)
  DIM sk_last_h%(0)
  DIM sk_plane_w%(0)
  DIM sk_plane_h%(0)
  DIM sk_map_first%(0)
  DIM sk_wrap_x%(0)
  DIM sk_ratio_x%(0)
  DIM sk_ratio_parts_x%(0)
  DIM sk_drift_x%(0)
  DIM sk_drift_step_x%(0)
  DIM sk_drift_parts_x%(0)
  DIM sk_plane_start_x%(0)
  DIM sk_plane_start_part_x%(0)
  DIM sk_start_base_x%(0)
  DIM sk_wrap_y%(0)
  DIM sk_ratio_y%(0)
  DIM sk_ratio_parts_y%(0)
  DIM sk_drift_y%(0)
  DIM sk_drift_step_y%(0)
  DIM sk_drift_parts_y%(0)
  DIM sk_plane_start_y%(0)
  DIM sk_plane_start_part_y%(0)
  DIM sk_start_base_y%(0)
  DIM sk_map_cell%(0)
  DIM sk_piece_w%(0)
  DIM sk_piece_h%(0)
  DIM sk_order%(0)
  DIM sk_flag_first%(0)
  DIM sk_flag_columns%(0)
  DIM sk_flag_w%(0)
  DIM sk_flag_h%(0)
  DIM sk_flag_cell%(0)
  DIM sk_frame_cell%(0)
  DIM sk_frame_x%(0)
  DIM sk_frame_y%(0)
  DIM sk_pivot_x%(0)
  DIM sk_pivot_y%(0)
  DIM sk_hit_x%(0)
  DIM sk_hit_y%(0)
  DIM sk_hit_w%(0)
  DIM sk_hit_h%(0)
  DIM sk_animation_first%(0)
  DIM sk_animation_count%(0)
  DIM sk_animation_again%(0)
  DIM sk_step_frame%(0)
  DIM sk_step_ticks%(0)
  DIM sk_step_flip%(0)
  DIM sk_look%(0)
  DIM sk_start_x%(0)
  DIM sk_start_y%(0)
  DIM sk_path_first%(0)
  DIM sk_path_count%(0)
  DIM sk_path_repeat%(0)
  DIM sk_segment_ticks%(0)
  DIM sk_segment_x%(0)
  DIM sk_segment_part_x%(0)
  DIM sk_segment_parts_x%(0)
  DIM sk_segment_y%(0)
  DIM sk_segment_part_y%(0)
  DIM sk_segment_parts_y%(0)
  DIM sk_segment_does%(0)
  DIM sk_segment_face%(0)
  DIM sk_actor_look%(0)
  DIM sk_actor_plane%(0)
  DIM sk_start_does%(0)
  DIM sk_start_face%(0)
  DIM sk_mover_x%(0)
  DIM sk_mover_y%(0)
  DIM sk_mover_part_x%(0)
  DIM sk_mover_part_y%(0)
  DIM sk_mover_used%(0)
  DIM sk_mover_segment%(0)
  DIM sk_plane_x%(0)
  DIM sk_plane_y%(0)
  DIM sk_plane_part_x%(0)
  DIM sk_plane_part_y%(0)
  DIM sk_drift_part_x%(0)
  DIM sk_drift_part_y%(0)
  DIM sk_wrap_base_x%(0)
  DIM sk_wrap_base_y%(0)
  DIM sk_actor_does%(0)
  DIM sk_actor_face%(0)
  DIM sk_actor_shows%(0)
  DIM sk_actor_flip%(0)
  DIM sk_actor_step%(0)
  DIM sk_actor_left%(0)
  DIM sk_cycle_shift%(0)
  DIM sk_cycle_left%(0)
  DIM sk_cycle_turn%(0)
  DIM sk_cover_used%(0)
  DIM sk_cover_done%(0)
  DIM sk_event_done%(0)
  DIM sk_event_next%(0)
  DIM sk_now%(15)
  DIM sk_shown%(15)
  DIM sk_piece_run%(1)
  DIM sk_run_x%(10)
  DIM sk_run_y%(10)
  DIM sk_run_length%(10)
  DIM sk_run_entry%(10)
  sk_tick%=0
  sk_page%=0
  sk_view_w%=16
  sk_view_h%=8
  sk_transparent%=0
  sk_backdrop%=3
  sk_clear_first%=1
  sk_entries%=16
  sk_moving%=0
  sk_pieces%=1
  sk_planes%=1
  sk_actors%=0
  sk_movers%=1
  sk_cycles%=0
  sk_events%=0
  sk_covers%=0
  sk_order_count%=1
  sk_ticks_per_update%=1
  RESTORE +918
  FOR i%=0 TO 15
    READ sk_red%(i%)
  NEXT
  FOR i%=0 TO 15
    READ sk_green%(i%)
  NEXT
  FOR i%=0 TO 15
    READ sk_blue%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_plane_columns%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_plane_rows%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_tile_w%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_tile_h%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_last_w%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_last_h%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_plane_w%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_plane_h%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_map_first%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_wrap_x%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_ratio_x%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_ratio_parts_x%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_drift_x%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_drift_step_x%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_drift_parts_x%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_plane_start_x%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_plane_start_part_x%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_start_base_x%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_wrap_y%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_ratio_y%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_ratio_parts_y%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_drift_y%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_drift_step_y%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_drift_parts_y%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_plane_start_y%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_plane_start_part_y%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_start_base_y%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_map_cell%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_piece_w%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_piece_h%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_order%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_flag_first%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_flag_columns%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_flag_w%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_flag_h%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_start_x%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_start_y%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_path_first%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_path_count%(i%)
  NEXT
  FOR i%=0 TO 0
    READ sk_path_repeat%(i%)
  NEXT
  sk_pages%=2
  MODE 16,8,4
  VDU 23,1,0;0;0;0;
  OFF
  PROCsk_load_pieces
  PROCsk_set_palette
ENDPROC
REM Puts everything to where it is at tick 0.
DEF PROCsk_start
  PROCsk_begin_scene
ENDPROC
REM Puts camera, planes, sprites and colours to where they are at tick 0; values stay.
DEF PROCsk_begin_scene
  LOCAL i%
  sk_tick%=0
  IF sk_movers%-1>=0 THEN
    FOR i%=0 TO sk_movers%-1
      sk_mover_x%(i%)=sk_start_x%(i%)
      sk_mover_y%(i%)=sk_start_y%(i%)
      sk_mover_part_x%(i%)=0
      sk_mover_part_y%(i%)=0
      sk_mover_used%(i%)=0
      sk_mover_segment%(i%)=0
      IF sk_path_count%(i%)=0 THEN
        sk_mover_segment%(i%)=-1
      ENDIF
    NEXT
  ENDIF
  IF sk_planes%-1>=0 THEN
    FOR i%=0 TO sk_planes%-1
      sk_plane_x%(i%)=sk_plane_start_x%(i%)
      sk_plane_y%(i%)=sk_plane_start_y%(i%)
      sk_plane_part_x%(i%)=sk_plane_start_part_x%(i%)
      sk_plane_part_y%(i%)=sk_plane_start_part_y%(i%)
      sk_drift_part_x%(i%)=0
      sk_drift_part_y%(i%)=0
      sk_wrap_base_x%(i%)=sk_start_base_x%(i%)
      sk_wrap_base_y%(i%)=sk_start_base_y%(i%)
      PROCsk_wrap_plane(i%)
    NEXT
  ENDIF
  IF sk_actors%-1>=0 THEN
    FOR i%=0 TO sk_actors%-1
      sk_actor_face%(i%)=sk_start_face%(i%)
      sk_actor_does%(i%)=sk_start_does%(i%)
      sk_actor_shows%(i%)=-1
      PROCsk_dress(i%)
    NEXT
  ENDIF
  IF sk_movers%-1>=1 THEN
    FOR i%=1 TO sk_movers%-1
      PROCsk_enter_segment(i%)
    NEXT
  ENDIF
  IF sk_cycles%-1>=0 THEN
    FOR i%=0 TO sk_cycles%-1
      sk_cycle_shift%(i%)=0
      sk_cycle_turn%(i%)=0
      sk_cycle_left%(i%)=sk_cycle_ticks%(i%)
    NEXT
  ENDIF
  IF sk_events%-1>=0 THEN
    FOR i%=0 TO sk_events%-1
      sk_event_done%(i%)=0
      sk_event_next%(i%)=sk_event_tick%(i%)
    NEXT
  ENDIF
  IF sk_covers%-1>=0 THEN
    FOR i%=0 TO sk_covers%-1
      sk_cover_used%(i%)=0
      sk_cover_done%(i%)=0
      PROCsk_step_cover(i%)
    NEXT
  ENDIF
  PROCsk_mix_palette
ENDPROC
REM One tick: camera, planes, sprites, animations and palette go on.
DEF PROCsk_step
  LOCAL i%,x%,y%
  sk_tick%=sk_tick%+1
  x%=sk_mover_x%(0)
  y%=sk_mover_y%(0)
  PROCsk_move(0)
  PROCsk_camera_by(sk_mover_x%(0)-x%,sk_mover_y%(0)-y%)
  IF sk_planes%-1>=0 THEN
    FOR i%=0 TO sk_planes%-1
      PROCsk_drift(i%)
    NEXT
  ENDIF
  PROCsk_step_sprites
  IF sk_covers%-1>=0 THEN
    FOR i%=0 TO sk_covers%-1
      PROCsk_step_cover(i%)
    NEXT
  ENDIF
  PROCsk_step_palette
ENDPROC
REM Lets transition I turn the cells of this tick.
DEF PROCsk_step_cover(i%)
  IF sk_tick%>=sk_cover_tick%(i%) AND sk_cover_used%(i%)<sk_cover_ticks%(i%) THEN
    sk_cover_used%(i%)=sk_cover_used%(i%)+1
    sk_cover_done%(i%)=sk_cover_count%(sk_cover_begin%(i%)+sk_cover_used%(i%))
  ENDIF
ENDPROC
REM Carries mover M along its path by one tick; mover 0 is the camera, mover I + 1 sprite I.
DEF PROCsk_move(m%)
  LOCAL s%
  s%=sk_mover_segment%(m%)
  IF s%<0 THEN
    ENDPROC
  ENDIF
  s%=sk_path_first%(m%)+s%
  sk_mover_x%(m%)=sk_mover_x%(m%)+sk_segment_x%(s%)
  sk_mover_part_x%(m%)=sk_mover_part_x%(m%)+sk_segment_part_x%(s%)
  IF sk_mover_part_x%(m%)>=sk_segment_parts_x%(s%) THEN
    sk_mover_part_x%(m%)=sk_mover_part_x%(m%)-sk_segment_parts_x%(s%)
    sk_mover_x%(m%)=sk_mover_x%(m%)+1
  ENDIF
  sk_mover_y%(m%)=sk_mover_y%(m%)+sk_segment_y%(s%)
  sk_mover_part_y%(m%)=sk_mover_part_y%(m%)+sk_segment_part_y%(s%)
  IF sk_mover_part_y%(m%)>=sk_segment_parts_y%(s%) THEN
    sk_mover_part_y%(m%)=sk_mover_part_y%(m%)-sk_segment_parts_y%(s%)
    sk_mover_y%(m%)=sk_mover_y%(m%)+1
  ENDIF
  sk_mover_used%(m%)=sk_mover_used%(m%)+1
  IF sk_mover_used%(m%)=sk_segment_ticks%(s%) THEN
    PROCsk_next_segment(m%)
  ENDIF
ENDPROC
REM Goes to the next segment of mover M's path.
DEF PROCsk_next_segment(m%)
  sk_mover_used%(m%)=0
  sk_mover_part_x%(m%)=0
  sk_mover_part_y%(m%)=0
  sk_mover_segment%(m%)=sk_mover_segment%(m%)+1
  IF sk_mover_segment%(m%)=sk_path_count%(m%) THEN
    sk_mover_segment%(m%)=0
    IF sk_path_repeat%(m%)=0 THEN
      sk_mover_segment%(m%)=-1
    ENDIF
    IF sk_path_repeat%(m%)=1 THEN
      sk_mover_x%(m%)=sk_start_x%(m%)
      sk_mover_y%(m%)=sk_start_y%(m%)
    ENDIF
  ENDIF
  IF m%>0 THEN
    PROCsk_enter_segment(m%)
  ENDIF
ENDPROC
REM Takes the animation and facing that mover M's segment asks for.
DEF PROCsk_enter_segment(m%)
  LOCAL s%
  IF sk_mover_segment%(m%)<0 THEN
    ENDPROC
  ENDIF
  s%=sk_path_first%(m%)+sk_mover_segment%(m%)
  IF sk_segment_does%(s%)>=0 THEN
    sk_actor_does%(m%-1)=sk_segment_does%(s%)
  ENDIF
  IF sk_segment_face%(s%)>=0 THEN
    sk_actor_face%(m%-1)=sk_segment_face%(s%)
  ENDIF
  PROCsk_dress(m%-1)
ENDPROC
REM Chooses what sprite I shows for its animation and facing; a new animation begins at its
REM first step.
DEF PROCsk_dress(i%)
  LOCAL n%
  n%=sk_look%(sk_actor_look%(i%)+4*sk_actor_does%(i%)+sk_actor_face%(i%))
  sk_actor_flip%(i%)=n% MOD 4
  n%=n% DIV 4
  IF n%<>sk_actor_shows%(i%) THEN
    sk_actor_shows%(i%)=n%
    sk_actor_step%(i%)=0
    sk_actor_left%(i%)=sk_step_ticks%(sk_animation_first%(n%))
  ENDIF
ENDPROC
REM Takes sprite I, or with -1 the camera, off its path: your program moves it then.
DEF PROCsk_let_go(i%)
  sk_mover_segment%(i%+1)=-1
ENDPROC
REM Makes sprite I do animation N of its own list.
DEF PROCsk_act(i%,n%)
  sk_actor_does%(i%)=n%
  PROCsk_dress(i%)
ENDPROC
REM Turns sprite I to facing F: 0 right, 1 left, 2 up, 3 down.
DEF PROCsk_face(i%,f%)
  sk_actor_face%(i%)=f%
  PROCsk_dress(i%)
ENDPROC
REM Plays sprite I's animation on by one tick.
DEF PROCsk_animate(i%)
  LOCAL n%
  n%=sk_actor_shows%(i%)
  sk_actor_left%(i%)=sk_actor_left%(i%)-1
  IF sk_actor_left%(i%)=0 THEN
    sk_actor_step%(i%)=sk_actor_step%(i%)+1
    IF sk_actor_step%(i%)=sk_animation_count%(n%) THEN
      sk_actor_step%(i%)=0
      IF sk_animation_again%(n%)=0 THEN
        sk_actor_step%(i%)=sk_animation_count%(n%)-1
      ENDIF
    ENDIF
    sk_actor_left%(i%)=sk_step_ticks%(sk_animation_first%(n%)+sk_actor_step%(i%))
  ENDIF
ENDPROC
REM Scrolls every plane for a camera that moved by U, V pixels.
DEF PROCsk_camera_by(u%,v%)
  LOCAL i%
  IF sk_planes%-1>=0 THEN
    FOR i%=0 TO sk_planes%-1
      sk_plane_part_x%(i%)=sk_plane_part_x%(i%)+sk_ratio_x%(i%)*u%
      WHILE sk_plane_part_x%(i%)<0
        sk_plane_part_x%(i%)=sk_plane_part_x%(i%)+sk_ratio_parts_x%(i%)
        sk_plane_x%(i%)=sk_plane_x%(i%)-1
      ENDWHILE
      WHILE sk_plane_part_x%(i%)>=sk_ratio_parts_x%(i%)
        sk_plane_part_x%(i%)=sk_plane_part_x%(i%)-sk_ratio_parts_x%(i%)
        sk_plane_x%(i%)=sk_plane_x%(i%)+1
      ENDWHILE
      sk_plane_part_y%(i%)=sk_plane_part_y%(i%)+sk_ratio_y%(i%)*v%
      WHILE sk_plane_part_y%(i%)<0
        sk_plane_part_y%(i%)=sk_plane_part_y%(i%)+sk_ratio_parts_y%(i%)
        sk_plane_y%(i%)=sk_plane_y%(i%)-1
      ENDWHILE
      WHILE sk_plane_part_y%(i%)>=sk_ratio_parts_y%(i%)
        sk_plane_part_y%(i%)=sk_plane_part_y%(i%)-sk_ratio_parts_y%(i%)
        sk_plane_y%(i%)=sk_plane_y%(i%)+1
      ENDWHILE
      PROCsk_wrap_plane(i%)
    NEXT
  ENDIF
ENDPROC
REM Lets plane I drift by one tick.
DEF PROCsk_drift(i%)
  sk_plane_x%(i%)=sk_plane_x%(i%)+sk_drift_x%(i%)
  sk_drift_part_x%(i%)=sk_drift_part_x%(i%)+sk_drift_step_x%(i%)
  IF sk_drift_part_x%(i%)>=sk_drift_parts_x%(i%) THEN
    sk_drift_part_x%(i%)=sk_drift_part_x%(i%)-sk_drift_parts_x%(i%)
    sk_plane_x%(i%)=sk_plane_x%(i%)+1
  ENDIF
  sk_plane_y%(i%)=sk_plane_y%(i%)+sk_drift_y%(i%)
  sk_drift_part_y%(i%)=sk_drift_part_y%(i%)+sk_drift_step_y%(i%)
  IF sk_drift_part_y%(i%)>=sk_drift_parts_y%(i%) THEN
    sk_drift_part_y%(i%)=sk_drift_part_y%(i%)-sk_drift_parts_y%(i%)
    sk_plane_y%(i%)=sk_plane_y%(i%)+1
  ENDIF
  PROCsk_wrap_plane(i%)
ENDPROC
REM Keeps the picture's pixel at the view's corner within the picture, for planes that
REM repeat.
DEF PROCsk_wrap_plane(i%)
  WHILE sk_plane_x%(i%)-sk_wrap_base_x%(i%)<0
    sk_wrap_base_x%(i%)=sk_wrap_base_x%(i%)-sk_plane_w%(i%)
  ENDWHILE
  WHILE sk_plane_x%(i%)-sk_wrap_base_x%(i%)>=sk_plane_w%(i%)
    sk_wrap_base_x%(i%)=sk_wrap_base_x%(i%)+sk_plane_w%(i%)
  ENDWHILE
  WHILE sk_plane_y%(i%)-sk_wrap_base_y%(i%)<0
    sk_wrap_base_y%(i%)=sk_wrap_base_y%(i%)-sk_plane_h%(i%)
  ENDWHILE
  WHILE sk_plane_y%(i%)-sk_wrap_base_y%(i%)>=sk_plane_h%(i%)
    sk_wrap_base_y%(i%)=sk_wrap_base_y%(i%)+sk_plane_h%(i%)
  ENDWHILE
ENDPROC
REM Turns the cycles and takes the palette events that are due.
DEF PROCsk_step_palette
  LOCAL i%,changed%
  changed%=0
  IF sk_cycles%-1>=0 THEN
    FOR i%=0 TO sk_cycles%-1
      sk_cycle_left%(i%)=sk_cycle_left%(i%)-1
      IF sk_cycle_left%(i%)=0 THEN
        PROCsk_turn_cycle(i%)
        changed%=1
      ENDIF
    NEXT
  ENDIF
  IF sk_events%-1>=0 THEN
    FOR i%=0 TO sk_events%-1
      IF sk_event_done%(i%)<sk_event_steps%(i%) AND sk_tick%>=sk_event_next%(i%) THEN
        sk_event_done%(i%)=sk_event_done%(i%)+1
        sk_event_next%(i%)=sk_event_next%(i%)+sk_event_wait%(i%)
        changed%=1
      ENDIF
    NEXT
  ENDIF
  IF changed%=1 THEN
    PROCsk_mix_palette
  ENDIF
ENDPROC
REM Turns cycle I by one entry.
DEF PROCsk_turn_cycle(i%)
  sk_cycle_left%(i%)=sk_cycle_ticks%(i%)
  sk_cycle_turn%(i%)=(sk_cycle_turn%(i%)+1) MOD sk_cycle_period%(i%)
  sk_cycle_shift%(i%)=sk_cycle_turn%(i%)
  IF sk_cycle_turn%(i%)>=sk_cycle_count%(i%) THEN
    sk_cycle_shift%(i%)=sk_cycle_period%(i%)-sk_cycle_turn%(i%)
  ENDIF
  IF sk_cycle_back%(i%)=1 THEN
    sk_cycle_shift%(i%)=(sk_cycle_count%(i%)-sk_cycle_shift%(i%)) MOD sk_cycle_count%(i%)
  ENDIF
ENDPROC
REM Works out which colour each moving entry has now: cycles first, then events.
DEF PROCsk_mix_palette
  LOCAL i%,j%
  IF sk_cycles%-1>=0 THEN
    FOR i%=0 TO sk_cycles%-1
      IF sk_cycle_count%(i%)-1>=0 THEN
        FOR j%=0 TO sk_cycle_count%(i%)-1
          sk_now%(sk_cycle_first%(i%)+j%)=sk_cycle_first%(i%)+(j%+sk_cycle_count%(i%)-sk_cycle_shift%(i%)) MOD sk_cycle_count%(i%)
        NEXT
      ENDIF
    NEXT
  ENDIF
  IF sk_events%-1>=0 THEN
    FOR i%=0 TO sk_events%-1
      IF sk_event_done%(i%)>0 THEN
        IF sk_event_count%(i%)-1>=0 THEN
          FOR j%=0 TO sk_event_count%(i%)-1
            sk_now%(sk_event_entry%(sk_event_first%(i%)+j%))=sk_event_colour%(i%)+(sk_event_done%(i%)-1)*sk_event_count%(i%)+j%
          NEXT
        ENDIF
      ENDIF
    NEXT
  ENDIF
ENDPROC
REM Finds out the frame, flip and place in the view of sprite I.
DEF PROCsk_pose(i%)
  LOCAL n%
  sk_pose_x%=sk_mover_x%(i%+1)
  sk_pose_y%=sk_mover_y%(i%+1)
  IF sk_actor_plane%(i%)>=0 THEN
    sk_pose_x%=sk_pose_x%-sk_plane_x%(sk_actor_plane%(i%))
    sk_pose_y%=sk_pose_y%-sk_plane_y%(sk_actor_plane%(i%))
  ENDIF
  n%=sk_animation_first%(sk_actor_shows%(i%))+sk_actor_step%(i%)
  sk_pose_frame%=sk_step_frame%(n%)
  sk_pose_flip%=(sk_step_flip%(n%) MOD 2+sk_actor_flip%(i%) MOD 2) MOD 2
  sk_pose_flip%=sk_pose_flip%+(sk_step_flip%(n%) DIV 2+sk_actor_flip%(i%) DIV 2) MOD 2*2
ENDPROC
REM Finds out the hit box of sprite I in the view; its width is 0 when it has none.
DEF PROCsk_hit_box(i%)
  PROCsk_pose(i%)
  sk_hit_wide%=sk_hit_w%(sk_pose_frame%)
  sk_hit_high%=sk_hit_h%(sk_pose_frame%)
  sk_hit_left%=sk_pose_x%+sk_hit_x%(sk_pose_frame%)
  IF sk_pose_flip% MOD 2=1 THEN
    sk_hit_left%=sk_pose_x%-sk_hit_x%(sk_pose_frame%)-sk_hit_wide%+1
  ENDIF
  sk_hit_top%=sk_pose_y%+sk_hit_y%(sk_pose_frame%)
  IF sk_pose_flip% DIV 2=1 THEN
    sk_hit_top%=sk_pose_y%-sk_hit_y%(sk_pose_frame%)-sk_hit_high%+1
  ENDIF
ENDPROC
REM Finds out whether the hit boxes of sprites I and J overlap: touching is 1 or 0.
DEF PROCsk_touch(i%,j%)
  LOCAL x%,y%,w%,h%
  sk_touching%=0
  PROCsk_hit_box(i%)
  x%=sk_hit_left%
  y%=sk_hit_top%
  w%=sk_hit_wide%
  h%=sk_hit_high%
  PROCsk_hit_box(j%)
  IF w%=0 OR sk_hit_wide%=0 THEN
    ENDPROC
  ENDIF
  IF x%<sk_hit_left%+sk_hit_wide% AND sk_hit_left%<x%+w% AND y%<sk_hit_top%+sk_hit_high% AND sk_hit_top%<y%+h% THEN
    sk_touching%=1
  ENDIF
ENDPROC
REM Finds out the flags of the map cell at pixel X, Y of plane P, 0 outside: flags, added
REM up.
DEF PROCsk_tile_at(p%,x%,y%)
  sk_flags%=0
  IF sk_flag_first%(p%)<0 THEN
    ENDPROC
  ENDIF
  IF sk_wrap_x%(p%)=1 THEN
    WHILE x%<0
      x%=x%+sk_plane_w%(p%)
    ENDWHILE
    x%=x% MOD sk_plane_w%(p%)
  ENDIF
  IF sk_wrap_y%(p%)=1 THEN
    WHILE y%<0
      y%=y%+sk_plane_h%(p%)
    ENDWHILE
    y%=y% MOD sk_plane_h%(p%)
  ENDIF
  IF x%<0 OR y%<0 OR x%>=sk_plane_w%(p%) OR y%>=sk_plane_h%(p%) THEN
    ENDPROC
  ENDIF
  PROCsk_flags_of(p%,y% DIV sk_flag_h%(p%)*sk_flag_columns%(p%)+x% DIV sk_flag_w%(p%))
ENDPROC
REM Draws the whole view, from back to front.
DEF PROCsk_draw
  LOCAL k%
  *REFRESH OFF
  PROCsk_draw_view
  IF sk_covers%-1>=0 THEN
    FOR k%=0 TO sk_covers%-1
      PROCsk_draw_cover(k%)
    NEXT
  ENDIF
  *REFRESH ON
  PROCsk_show_palette
  sk_page%=(sk_page%+1) MOD sk_pages%
ENDPROC
REM Fills the view with the backdrop.
DEF PROCsk_clear
  GCOL sk_backdrop%
  RECTANGLE FILL 2*0,14-2*(0+sk_view_h%-1),2*sk_view_w%-1,2*sk_view_h%-1
ENDPROC
REM Covers what transition I covers of the view.
DEF PROCsk_draw_cover(i%)
  LOCAL k%,c%,first%,last%
  first%=0
  last%=sk_cover_done%(i%)
  IF sk_cover_opens%(i%)=1 THEN
    first%=sk_cover_done%(i%)
    last%=sk_cover_cells%(i%)
  ENDIF
  IF first%=last% THEN
    ENDPROC
  ENDIF
  GCOL sk_cover_entry%(i%)
  IF last%-first%=sk_cover_cells%(i%) THEN
    RECTANGLE FILL 2*0,14-2*(0+sk_view_h%-1),2*sk_view_w%-1,2*sk_view_h%-1
    ENDPROC
  ENDIF
  IF last%-1>=first% THEN
    FOR k%=first% TO last%-1
      c%=sk_cover_cell%(sk_cover_first%(i%)+k%)
      RECTANGLE FILL 2*(c% MOD sk_cover_columns%(i%)*sk_cover_w%(i%)),14-2*((c% DIV sk_cover_columns%(i%)*sk_cover_h%(i%))+sk_cover_h%(i%)-1),2*sk_cover_w%(i%)-1,2*sk_cover_h%(i%)-1
    NEXT
  ENDIF
ENDPROC
REM Draws the cells of plane P that the view shows.
DEF PROCsk_draw_plane(p%)
  LOCAL r%,c%,x%,y%,u%,v%
  v%=sk_plane_y%(p%)
  IF sk_wrap_y%(p%)=1 THEN
    v%=sk_plane_y%(p%)-sk_wrap_base_y%(p%)
  ENDIF
  r%=0
  y%=0-v%
  IF v%>0 THEN
    r%=v% DIV sk_tile_h%(p%)
    y%=0-v% MOD sk_tile_h%(p%)
    IF r%>=sk_plane_rows%(p%) THEN
      r%=sk_plane_rows%(p%)
    ENDIF
  ENDIF
  u%=sk_plane_x%(p%)
  IF sk_wrap_x%(p%)=1 THEN
    u%=sk_plane_x%(p%)-sk_wrap_base_x%(p%)
  ENDIF
  c%=0
  x%=0-u%
  IF u%>0 THEN
    c%=u% DIV sk_tile_w%(p%)
    x%=0-u% MOD sk_tile_w%(p%)
    IF c%>=sk_plane_columns%(p%) THEN
      c%=sk_plane_columns%(p%)
    ENDIF
  ENDIF
  sk_rows_on%=0
  WHILE y%<sk_view_h% AND r%<sk_plane_rows%(p%)
    PROCsk_draw_row(p%,r%,c%,x%,y%)
    r%=r%+1
    y%=y%+sk_tile_h%(p%)
    IF r%=sk_plane_rows%(p%) AND sk_wrap_y%(p%)=1 THEN
      y%=y%-sk_tile_h%(p%)+sk_last_h%(p%)
      r%=0
      sk_rows_on%=sk_rows_on%+sk_plane_rows%(p%)
    ENDIF
  ENDWHILE
ENDPROC
REM Draws sprite I where it stands.
DEF PROCsk_draw_actor(i%)
  PROCsk_pose(i%)
  PROCsk_draw_frame(sk_pose_frame%,sk_pose_x%,sk_pose_y%,sk_pose_flip%)
ENDPROC
REM Draws frame N with its pivot at X, Y, mirrored by flip F.
DEF PROCsk_draw_frame(n%,x%,y%,f%)
  LOCAL p%,g%
  IF sk_frame_cell%(n%)<0 THEN
    ENDPROC
  ENDIF
  p%=sk_frame_cell%(n%) DIV 4
  g%=sk_frame_cell%(n%) MOD 4
  IF f% MOD 2=1 THEN
    x%=x%-sk_frame_x%(n%)-sk_piece_w%(p%)+1
  ELSE
    x%=x%+sk_frame_x%(n%)
  ENDIF
  IF f% DIV 2=1 THEN
    y%=y%-sk_frame_y%(n%)-sk_piece_h%(p%)+1
  ELSE
    y%=y%+sk_frame_y%(n%)
  ENDIF
  f%=(f% MOD 2+g% MOD 2) MOD 2+(f% DIV 2+g% DIV 2) MOD 2*2
  PROCsk_draw_piece(p%,x%,y%,f%)
ENDPROC
REM Draws piece N at X, Y, mirrored by flip F, as runs of one colour.
DEF PROCsk_draw_piece(n%,x%,y%,f%)
  LOCAL i%,u%,v%
  IF x%>=sk_view_w% OR y%>=sk_view_h% OR x%+sk_piece_w%(n%)<=0 OR y%+sk_piece_h%(n%)<=0 THEN
    ENDPROC
  ENDIF
  IF x%<0 OR y%<0 OR x%+sk_piece_w%(n%)>sk_view_w% OR y%+sk_piece_h%(n%)>sk_view_h% THEN
    PROCsk_draw_cut(n%,x%,y%,f%)
    ENDPROC
  ENDIF
  IF f%=0 THEN
    IF sk_piece_run%(n%+1)-1>=sk_piece_run%(n%) THEN
      FOR i%=sk_piece_run%(n%) TO sk_piece_run%(n%+1)-1
        GCOL sk_run_entry%(i%)
        LINE 2*(x%+sk_run_x%(i%)),14-2*(y%+sk_run_y%(i%)),2*((x%+sk_run_x%(i%))+sk_run_length%(i%)-1),14-2*(y%+sk_run_y%(i%))
      NEXT
    ENDIF
    ENDPROC
  ENDIF
  IF sk_piece_run%(n%+1)-1>=sk_piece_run%(n%) THEN
    FOR i%=sk_piece_run%(n%) TO sk_piece_run%(n%+1)-1
      u%=x%+sk_run_x%(i%)
      v%=y%+sk_run_y%(i%)
      IF f% MOD 2=1 THEN
        u%=x%+sk_piece_w%(n%)-sk_run_x%(i%)-sk_run_length%(i%)
      ENDIF
      IF f% DIV 2=1 THEN
        v%=y%+sk_piece_h%(n%)-1-sk_run_y%(i%)
      ENDIF
      GCOL sk_run_entry%(i%)
      LINE 2*u%,14-2*v%,2*(u%+sk_run_length%(i%)-1),14-2*v%
    NEXT
  ENDIF
ENDPROC
REM The same, cut at the view's edges.
DEF PROCsk_draw_cut(n%,x%,y%,f%)
  LOCAL i%,u%,v%,w%,left%,top%,right%,bottom%
  left%=0
  top%=0
  right%=sk_view_w%
  bottom%=sk_view_h%
  IF sk_piece_run%(n%+1)-1>=sk_piece_run%(n%) THEN
    FOR i%=sk_piece_run%(n%) TO sk_piece_run%(n%+1)-1
      u%=x%+sk_run_x%(i%)
      v%=y%+sk_run_y%(i%)
      w%=sk_run_length%(i%)
      IF f% MOD 2=1 THEN
        u%=x%+sk_piece_w%(n%)-sk_run_x%(i%)-w%
      ENDIF
      IF f% DIV 2=1 THEN
        v%=y%+sk_piece_h%(n%)-1-sk_run_y%(i%)
      ENDIF
      IF u%<left% THEN
        w%=w%+u%-left%
        u%=left%
      ENDIF
      IF u%+w%>right% THEN
        w%=right%-u%
      ENDIF
      IF w%>0 AND v%>=top% AND v%<bottom% THEN
        GCOL sk_run_entry%(i%)
        LINE 2*u%,14-2*v%,2*(u%+w%-1),14-2*v%
      ENDIF
    NEXT
  ENDIF
ENDPROC
REM Reads the pixels of all pieces.
DEF PROCsk_load_pieces
  sk_file%=OPENIN("tiny-art.raw")
  PROCsk_read_pieces(0,sk_pieces%)
  CLOSE#sk_file%
ENDPROC
REM Reads the pixels of pieces from A on and before B, row by row, and keeps them as runs of
REM one colour.
DEF PROCsk_read_pieces(a%,b%)
  LOCAL n%,k%,x%,y%,c%,last%,length%
  k%=0
  IF a%>0 THEN
    k%=sk_piece_run%(a%)
  ENDIF
  IF b%-1>=a% THEN
    FOR n%=a% TO b%-1
      sk_piece_run%(n%)=k%
      IF sk_piece_h%(n%)-1>=0 THEN
        FOR y%=0 TO sk_piece_h%(n%)-1
          last%=sk_transparent%
          length%=0
          IF sk_piece_w%(n%)-1>=0 THEN
            FOR x%=0 TO sk_piece_w%(n%)-1
              c%=BGET#sk_file%
              IF c%<>last% THEN
                IF last%<>sk_transparent% THEN
                  sk_run_x%(k%)=x%-length%
                  sk_run_y%(k%)=y%
                  sk_run_length%(k%)=length%
                  sk_run_entry%(k%)=last%
                  k%=k%+1
                ENDIF
                last%=c%
                length%=0
              ENDIF
              length%=length%+1
            NEXT
          ENDIF
          IF last%<>sk_transparent% THEN
            sk_run_x%(k%)=sk_piece_w%(n%)-length%
            sk_run_y%(k%)=y%
            sk_run_length%(k%)=length%
            sk_run_entry%(k%)=last%
            k%=k%+1
          ENDIF
        NEXT
      ENDIF
    NEXT
  ENDIF
  sk_piece_run%(b%)=k%
ENDPROC
REM Writes the palette entries that changed.
DEF PROCsk_show_palette
  LOCAL i%,n%
  IF sk_moving%-1>=0 THEN
    FOR i%=0 TO sk_moving%-1
      n%=sk_moving_entry%(i%)
      IF sk_now%(n%)<>sk_shown%(n%) THEN
        sk_shown%(n%)=sk_now%(n%)
        COLOUR n%,sk_red%(sk_now%(n%)),sk_green%(sk_now%(n%)),sk_blue%(sk_now%(n%))
      ENDIF
    NEXT
  ENDIF
ENDPROC
REM Writes every palette entry.
DEF PROCsk_set_palette
  LOCAL i%
  IF sk_entries%-1>=0 THEN
    FOR i%=0 TO sk_entries%-1
      sk_now%(i%)=i%
      sk_shown%(i%)=i%
      COLOUR i%,sk_red%(i%),sk_green%(i%),sk_blue%(i%)
    NEXT
  ENDIF
ENDPROC
REM Finds the keys that are held: steer_left, steer_right, steer_up, steer_down and
REM steer_act are 1 or 0.
DEF PROCsk_steer
  LOCAL k%
  k%=-INKEY(-26)-2*INKEY(-122)-4*INKEY(-58)-8*INKEY(-42)-16*INKEY(-99)
  PROCsk_steer_by(k%)
ENDPROC
REM Takes N for the keys that are held: left 1, right 2, up 4, down 8, action 16, added up.
DEF PROCsk_steer_by(n%)
  sk_steer_left%=n% MOD 2
  sk_steer_right%=(n% DIV 2) MOD 2
  sk_steer_up%=(n% DIV 4) MOD 2
  sk_steer_down%=(n% DIV 8) MOD 2
  sk_steer_act%=(n% DIV 16) MOD 2
ENDPROC
REM Moves the camera to X, Y in the world.
DEF PROCsk_camera_to(x%,y%)
  LOCAL u%,v%
  u%=x%-sk_mover_x%(0)
  v%=y%-sk_mover_y%(0)
  sk_mover_x%(0)=x%
  sk_mover_y%(0)=y%
  PROCsk_camera_by(u%,v%)
ENDPROC
REM Draws planes and sprites, from back to front.
DEF PROCsk_draw_view
  LOCAL k%,n%
  IF sk_clear_first%=1 THEN
    PROCsk_clear
  ENDIF
  IF sk_order_count%-1>=0 THEN
    FOR k%=0 TO sk_order_count%-1
      n%=sk_order%(k%)
      IF n%<sk_planes% THEN
        PROCsk_draw_plane(n%)
      ELSE
        PROCsk_draw_actor(n%-sk_planes%)
      ENDIF
    NEXT
  ENDIF
ENDPROC
REM Finds the flags of cell N of plane P.
DEF PROCsk_flags_of(p%,n%)
  sk_flags%=sk_flag_cell%(sk_flag_first%(p%)+n%)
ENDPROC
REM Draws row R of a plane's cells, from column C, at X, Y.
DEF PROCsk_draw_row(p%,r%,c%,x%,y%)
  LOCAL n%,m%
  m%=sk_map_first%(p%)+r%*sk_plane_columns%(p%)
  WHILE x%<sk_view_w% AND c%<sk_plane_columns%(p%)
    n%=sk_map_cell%(m%+c%)
    IF n%>=0 THEN
      PROCsk_draw_piece(n% DIV 4,x%,y%,n% MOD 4)
    ENDIF
    c%=c%+1
    x%=x%+sk_tile_w%(p%)
    IF c%=sk_plane_columns%(p%) AND sk_wrap_x%(p%)=1 THEN
      x%=x%-sk_tile_w%(p%)+sk_last_w%(p%)
      c%=0
    ENDIF
  ENDWHILE
ENDPROC
REM Lets every sprite go on by one tick.
DEF PROCsk_step_sprites
  LOCAL i%
  IF sk_actors%-1>=0 THEN
    FOR i%=0 TO sk_actors%-1
      PROCsk_animate(i%)
      PROCsk_move(i%+1)
    NEXT
  ENDIF
ENDPROC
REM No refresh is missed yet.
DEF PROCsk_start_clock
  sk_missed%=0
  PROCsk_forget_late
ENDPROC
REM Waits until the refreshes of an update are over, where the picture took less, and looks
REM at the clock then.
DEF PROCsk_keep_time
  LOCAL u%,k%
  PROCsk_take_pace
  k%=0
  WHILE k%=0
    sk_clock_now%=TIME*10
    u%=sk_clock_now%-sk_clock_last%
    IF u%<0 OR u%>=1000 THEN
      k%=1
    ELSE
      IF sk_late_us%+u%*1000>=sk_ticks_per_update%*sk_refresh_us% THEN
        k%=1
      ENDIF
    ENDIF
  ENDWHILE
  PROCsk_look_at_clock
ENDPROC
REM Time until now is not counted as late: it went into loading.
DEF PROCsk_forget_late
  sk_late_us%=0
  sk_clock_last%=TIME*10
ENDPROC
REM Counts refreshes that pictures missed since the last look, and finds the ticks that are
REM due: those of an
REM update, and where late pictures are caught up those that were missed. Being early counts
REM for 60 ms at most,
REM since clocks are coarse; a wait of a second or more, or a clock that begins anew, counts
REM as nothing.
DEF PROCsk_look_at_clock
  LOCAL u%,v%
  PROCsk_take_pace
  sk_ticks_due%=sk_ticks_per_update%
  sk_clock_now%=TIME*10
  u%=sk_clock_now%-sk_clock_last%
  sk_clock_last%=sk_clock_now%
  IF u%<0 OR u%>=1000 THEN
    sk_late_us%=0
    ENDPROC
  ENDIF
  sk_late_us%=sk_late_us%+u%*1000-sk_ticks_per_update%*sk_refresh_us%
  IF sk_late_us%<(-60000) THEN
    sk_late_us%=-60000
  ENDIF
  IF sk_late_us%<sk_refresh_us% THEN
    ENDPROC
  ENDIF
  v%=sk_late_us% DIV sk_refresh_us%
  sk_late_us%=sk_late_us%-v%*sk_refresh_us%
  sk_missed%=sk_missed%+v%
  IF sk_catch_up%=1 THEN
    sk_ticks_due%=sk_ticks_due%+v%
    IF sk_ticks_due%>12 THEN
      sk_ticks_due%=12
    ENDIF
  ENDIF
ENDPROC
REM Sets how time is kept in this scene.
DEF PROCsk_take_pace
  sk_refresh_us%=14268
  sk_catch_up%=0
ENDPROC
REM red: 0 to 255, by colour; the palette's entries come first
DATA 0,200,0,0,0,0,0,0,0,0,0,0,0,0,0,0
REM green: 0 to 255, by colour; the palette's entries come first
DATA 0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0
REM blue: 0 to 255, by colour; the palette's entries come first
DATA 0,0,200,0,0,0,0,0,0,0,0,0,0,0,0,0
REM plane_columns: columns of each plane's map
DATA 1
REM plane_rows: rows
DATA 1
REM tile_w: pixels of a cell
DATA 8
REM tile_h
DATA 8
REM last_w: pixels of the last column's cells
DATA 8
REM last_h: and of the last row's
DATA 8
REM plane_w: pixels of the whole picture
DATA 8
REM plane_h
DATA 8
REM map_first: first cell in map_cell
DATA 0
REM wrap_x: 1 when it repeats along x
DATA 1
REM ratio_x: scroll ratio along x: this many
DATA 1
REM ratio_parts_x: parts of so many
DATA 1
REM drift_x: pixels it drifts a tick along x
DATA 0
REM drift_step_x: and this many
DATA 0
REM drift_parts_x: parts of so many
DATA 1
REM plane_start_x: scroll at tick 0 along x
DATA 0
REM plane_start_part_x: and its parts
DATA 0
REM start_base_x: whole pictures scrolled by at tick 0
DATA 0
REM wrap_y: 1 when it repeats along y
DATA 0
REM ratio_y: scroll ratio along y: this many
DATA 1
REM ratio_parts_y: parts of so many
DATA 1
REM drift_y: pixels it drifts a tick along y
DATA 0
REM drift_step_y: and this many
DATA 0
REM drift_parts_y: parts of so many
DATA 1
REM plane_start_y: scroll at tick 0 along y
DATA 0
REM plane_start_part_y: and its parts
DATA 0
REM start_base_y: whole pictures scrolled by at tick 0
DATA 0
REM map_cell: 4 x tile + flip, -1 is empty
DATA 0
REM piece_w: pixels of each piece: tiles, then frames
DATA 8
REM piece_h
DATA 8
REM order: drawing order: planes, then planes + sprite
DATA 0
REM flag_first: first place in flag_cell, -1 when a plane has no flags
DATA -1
REM flag_columns: columns of its map
DATA 0
REM flag_w: pixels of a cell
DATA 1
REM flag_h
DATA 1
REM start_x: start places: camera first, then sprites
DATA 0
REM start_y
DATA 0
REM path_first: first segment of each path
DATA 0
REM path_count: its segments
DATA 0
REM path_repeat: after the last: 0 stay, 1 from the start place, 2 onward
DATA 0
