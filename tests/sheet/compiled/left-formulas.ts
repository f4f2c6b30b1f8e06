/**
 * Formulas over the cells of `SHEETS` that the compiled path leaves to Univer, with what Excel gives: Microsoft's pages of
 * the functions named.
 */
export const LEFT_FORMULAS = {
  sum: [
    // Page SUM: a typed text counts as the number that it spells.
    ['SUM("5",1)', 6],
    ["SUM(,B1)", 10],
    ['SUM(IF(TRUE,"5"),1)', 6],
    // Page COUNT: typed numbers count, page COUNTA: whatever is typed.
    ["COUNT(1,B1:B4)", 5],
    ['COUNTA("x",B1:B4)', 5],
    // Page SUMPRODUCT: arrays of other dimensions are #VALUE!.
    ["SUMPRODUCT(B1:B2*1,B1:C2)", "#VALUE!"],
    ["SUMPRODUCT(B1:B4,{2})", "#VALUE!"],
    ["SUMPRODUCT({1,2},{1;2})", "#VALUE!"],
    ["SUMPRODUCT({1,2},{3,4})", 11],
    ["SUMPRODUCT(B1:B4)", 100],
    ["SUMPRODUCT(B1:B4*1,C1:C4)", 500],
    ["SUMPRODUCT(B1:B4,C1:C4*1)", 500],
    ["SUMPRODUCT(2,3)", 6],
    ["SUMPRODUCT(B1:B4,{1;1;1;1})", 100],
  ],
  lookup: [
    // Page VLOOKUP: range_lookup is a logical value.
    ['VLOOKUP(20,B1:C4,2,"x")', "#VALUE!"],
    ["VLOOKUP(20,B1:C4,2,E1)", "#DIV/0!"],
    ['VLOOKUP("bl*",A1:B4,2,FALSE)', 20],
    ['VLOOKUP("g?ld",A1:B4,2,FALSE)', 40],
    // Page MATCH: -1 looks for the smallest that is not below, in descending order; wildcards with 0.
    ["MATCH(15,F1:F3,-1)", 2],
    ['MATCH("r*",A1:A4,0)', 1],
    ["MATCH(3,H2:K2)", 3],
    ["MATCH(20,B1:C4,0)", "#N/A"],
    ["MATCH(25,B1:B4,TRUE)", 2],
    ["MATCH(20,B1:B4,FALSE)", 2],
    ['MATCH("b",H1:J1)', 2],
    ["MATCH(25,R1:R4)", 2],
    // Values of other kinds never match: page LOOKUP, the order of kinds of values.
    ['MATCH("x",H2:K2)', "#N/A"],
    ['HLOOKUP("x",H2:K2,1)', "#N/A"],
    ['HLOOKUP("x",H2:K2,1,TRUE)', "#N/A"],
    ["HLOOKUP(3,H2:K2,1)", 3],
    ["HLOOKUP(3,H2:K2,1,)", 3],
    ["HLOOKUP(3.5,H2:K2,1,FALSE)", "#N/A"],
    ["HLOOKUP(1,H1:K2,2)", "#N/A"],
    ["HLOOKUP(E1,H1:K2,2)", "#DIV/0!"],
    ['SUM(VLOOKUP("x",B1:C4*1,2))', "#N/A"],
    ["SUM(VLOOKUP(25,B1:C4*1,2))", 3],
    ["SUM(MATCH(25,B1:B4*1))", 2],
    ["SUM(MATCH(TRUE,B1:B4*1))", "#N/A"],
    ["MATCH(A5,C1:C4,0)", "#N/A"],
    // Page XLOOKUP.
    ['_xlfn.XLOOKUP("c",H1:K1,H2:K2)', 3],
    ['_xlfn.XLOOKUP("blue",A1:A4,B1:B3)', "#VALUE!"],
    ['_xlfn.XLOOKUP("b",H1:K1,L2)', "#VALUE!"],
    ['SUM(_xlfn.XLOOKUP("blue",A1:A4,B1:C4))', 23],
    ['_xlfn.XLOOKUP("blue",A1:A4,B1:B4,,-1)', 20],
    ['_xlfn.XLOOKUP("blue",A1:A4,B1:B4,)', 20],
    // Page INDEX: 0 gives all of a row or column.
    // Page INDEX, array form: of several rows and columns, one number alone gives the whole row.
    ["SUM(INDEX(B1:C4,2))", 23],
    ["SUM(INDEX(B1:B4,0))", 100],
    ["SUM(INDEX(B1:C4,0,2))", 16],
    ["SUM(INDEX(B1:C4,2,0))", 23],
    ['INDEX(B1:B4,"2")', 20],
    ['INDEX(B1:C4,1,"2")', 1],
    ["INDEX(B1:B4,-1)", "#VALUE!"],
    ["INDEX(B1:C4,1,-1)", "#VALUE!"],
  ],
  logical: [
    ["IF(,1,2)", 2],
    ["NOT(A1)", "#VALUE!"],
    ['OR("")', "#VALUE!"],
  ],
  operators: [
    // Page VALUE: a text that spells a number, an amount of money, a percentage or a date counts as that.
    ['"5%"+1', 1.05],
    ['"1e3"+1', 1001],
    ['"x5"+1', "#VALUE!"],
    ['" 5 "+1', 6],
    ['""+1', "#VALUE!"],
    ['" "+1', "#VALUE!"],
    ["A7+1", "#VALUE!"],
    ["B1:C1", "#VALUE!"],
    ['"a*"="A*"', true],
    ['"a*"="b"', false],
    ['"b"="a*"', false],
    ['"a-b"<"a-c"', true],
    ["SIN(0)", 0],
    ["SUM({1,2})", 3],
  ],
  conditional: [
    // Page SUMIF: sum_range has the size of range, from its own first cell on.
    ['SUMIF(A1:A4,"red",B1:B3)', 40],
    ['SUMIF(A1:A4,"red",B1)', 40],
    // Page SUMIFS: other sizes are #VALUE!.
    ['SUMIFS(B1:B4,A1:A4,"red",C1:C3,1)', "#VALUE!"],
    ['SUMIFS(B1:B2,A1:B2,"red")', "#VALUE!"],
    ['SUMIFS(B1:C4,A1:A4,"red")', "#VALUE!"],
    ['COUNTIFS(A1:A4,"red",B1:B3,10)', "#VALUE!"],
    // Page COUNTIF and "Guidelines and examples of array formulas": one result for each condition of an array.
    ['SUM(COUNTIF(A1:A4,{"red","blue"}))', 3],
    ['SUM(SUMIF(A1:A4,{"red";"blue"},B1:B4))', 60],
    ['SUM(COUNTIFS(A1:A4,{"red","blue"},B1:B4,{10;20}))', 2],
    ['SUM(COUNTIFS(A1:A4,{"red";"blue"},B1:B4,10))', 1],
    ['SUM(COUNTIFS(B1:B4,20,A1:A4,{"red","blue"}))', 1],
    // Page COUNTIF: percentages and dates in conditions are numbers.
    ['COUNTIF(C1:C4,"100%")', 1],
    ['COUNTIF(B1:B4,">1e1")', 3],
  ],
} as const;
