/** Three small instances of our own making, one in each format. */
export const sm = `************************************************************************
jobs (incl. supersource/sink ):  5
  - renewable                 :  2   R
************************************************************************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        1          1           4
   3        1          1           5
   4        1          1           5
   5        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------------------------------------------------
  1      1     0       0    0
  2      1     3       2    0
  3      1     4       2    1
  4      1     2       1    1
  5      1     0       0    0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1  R 2
    3    1
************************************************************************
`;

export const dzn = `% made for a test
nActs = 4;
dur = [0,3,2,0];
nSkills = 2;
sreq = [| 0,0,
  | 1,1,
  | 0,2,
  | 0,0, |];
nResources = 2;
mastery = [| true,true,
  | false,true, |];
nPrecs = 4;
pred = [1,1,2,3];
succ = [2,3,4,4];
`;

export const def = `==========================================================
Tasks: 3
Resources: 2
==========================================================
ResourceID \t Salary \t Skills
1 \t 10.0 \t Q0: 0 \t Q1: 2
2 \t 11.0 \t Q0: 1
==========================================================
TaskID \t Duration \t Skill \t Predecessor IDs
1 \t 5 \t Q0: 1
2 \t 4 \t Q1: 2
3 \t 2 \t Q0: 0 \t 1 2
==========================================================
`;
