// Puts weights.bin into the program (network.hpp says what it holds).
    .section .rodata
    .balign 64
    .global kairos_weights
kairos_weights:
    .incbin KAIROS_WEIGHTS
    .section .note.GNU-stack,"",%progbits
