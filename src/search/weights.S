// Puts weights.bin into the program (network.hpp says what it holds).
    .section .rodata
    .balign 64
    .global kairos_weights_begin
    .global kairos_weights_end
kairos_weights_begin:
    .incbin KAIROS_WEIGHTS
kairos_weights_end:
    .byte 0
    .section .note.GNU-stack,"",%progbits
