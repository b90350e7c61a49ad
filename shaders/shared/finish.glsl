// What kinds of surface there are beyond plain matt and gloss: same numbers as keystead::Finish.
#ifndef KEYSTEAD_CPP
#define SHARED
#endif

SHARED const int finish_plain = 0;
SHARED const int finish_skin = 1;
SHARED const int finish_eye = 2;
SHARED const int finish_hair = 3;
SHARED const int finish_cloth = 4;
SHARED const int finish_paper = 5;
SHARED const int finish_floor = 6;
SHARED const int finish_grid = 7;
