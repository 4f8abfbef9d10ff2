<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="es" sourcelanguage="en">
<context>
    <name>FaultDoc</name>
    <message>
        <source>Done again</source>
        <translation>Hecho de nuevo</translation>
    </message>
    <message>
        <source>Saved as {path}.</source>
        <translation>Guardado como {path}.</translation>
    </message>
    <message>
        <source>That could not be written into the case book, so it was not taken.</source>
        <translation>Eso no se pudo escribir en el libro de casos, así que no se tomó.</translation>
    </message>
    <message>
        <source>That could not be written into the case book, so nothing was changed.</source>
        <translation>Eso no se pudo escribir en el libro de casos, así que nada cambió.</translation>
    </message>
    <message>
        <source>That is written down, but the case could not be assessed with it. Undo it (Ctrl+Z) to go on.</source>
        <translation>Quedó anotado, pero el caso no se pudo evaluar con eso. Deshágalo (Ctrl+Z) para seguir.</translation>
    </message>
    <message>
        <source>The case could not be marked as closed in the case book.</source>
        <translation>El caso no se pudo marcar como cerrado en el libro de casos.</translation>
    </message>
    <message>
        <source>The case could not be opened.</source>
        <translation>El caso no se pudo abrir.</translation>
    </message>
    <message>
        <source>There is nothing to {way}.</source>
        <translation>No hay nada más en esa dirección.</translation>
    </message>
    <message>
        <source>This case is NOT kept as you go: save it as a file (Ctrl+S) now and then.</source>
        <translation>Este caso NO se guarda mientras trabaja: guárdelo de vez en cuando como archivo (Ctrl+S).</translation>
    </message>
    <message>
        <source>Undone</source>
        <translation>Deshecho</translation>
    </message>
    <message>
        <source>{path} could not be written: {strerror}. Choose another folder.</source>
        <translation>No se pudo escribir {path}: {strerror}. Elija otra carpeta.</translation>
    </message>
    <message>
        <source>{path} could not be written: {problem}. Choose another folder.</source>
        <translation>No se pudo escribir {path}: {problem}. Elija otra carpeta.</translation>
    </message>
    <message>
        <source>{what} is in {path}.</source>
        <translation>{what} está en {path}.</translation>
    </message>
    <message>
        <source> Details: {path}</source>
        <translation> Detalles: {path}</translation>
    </message>
    <message>
        <source>Left out of the units: {said}</source>
        <translation>Quedó fuera de las unidades: {said}</translation>
    </message>
    <message>
        <source>Passed over of what cases taught: {said}</source>
        <translation>Se pasó por alto de lo que enseñaron los casos: {said}</translation>
    </message>
    <message>
        <source>The case book could not be read.</source>
        <translation>No se pudo leer el libro de casos.</translation>
    </message>
    <message>
        <source>The settings could not be kept: {strerror}.</source>
        <translation>No se pudieron guardar los ajustes: {strerror}.</translation>
    </message>
    <message>
        <source>The unit could not be listed.</source>
        <translation>No se pudo poner la unidad en la lista.</translation>
    </message>
    <message>
        <source>Allowed</source>
        <translation>Permitido</translation>
    </message>
    <message>
        <source>At</source>
        <translation>En</translation>
    </message>
    <message>
        <source>Back</source>
        <translation>Volver</translation>
    </message>
    <message>
        <source>Do this</source>
        <translation>Haga esto</translation>
    </message>
    <message>
        <source>FaultDoc's own files have mistakes</source>
        <translation>Los archivos propios de FaultDoc tienen errores</translation>
    </message>
    <message>
        <source>Found</source>
        <translation>Encontrado</translation>
    </message>
    <message>
        <source>This case file cannot be opened</source>
        <translation>Este archivo de caso no se puede abrir</translation>
    </message>
    <message>
        <source>Try again</source>
        <translation>Intentar de nuevo</translation>
    </message>
    <message>
        <source>{count} problem{what}. Mend {what_2} and try again.</source>
        <translation>{count} problema(s). Corríjalos e intente de nuevo.</translation>
    </message>
    <message>
        <source>{file}, line {line}</source>
        <translation>{file}, línea {line}</translation>
    </message>
    <message>
        <source> Not open yet: no remedy here has a proof that held.</source>
        <translation> Todavía no se puede: ningún remedio de aquí tiene una prueba que se cumplió.</translation>
    </message>
    <message>
        <source>, power on without a break</source>
        <translation>, con energía sin interrupción</translation>
    </message>
    <message>
        <source>Back to service</source>
        <translation>Volver a servicio</translation>
    </message>
    <message>
        <source>Case closed: {lower}</source>
        <translation>Caso cerrado: {lower}</translation>
    </message>
    <message>
        <source>Choose how it ended first.</source>
        <translation>Elija primero cómo terminó.</translation>
    </message>
    <message>
        <source>Close the case</source>
        <translation>Cerrar el caso</translation>
    </message>
    <message>
        <source>Do the first of these now</source>
        <translation>Haga ahora lo primero de esto</translation>
    </message>
    <message>
        <source>Note on how the case ended</source>
        <translation>Nota sobre cómo terminó el caso</translation>
    </message>
    <message>
        <source>Note, if you want one</source>
        <translation>Nota, si quiere</translation>
    </message>
    <message>
        <source>The first: {why_not}</source>
        <translation>Lo primero: {why_not}</translation>
    </message>
    <message>
        <source>The unit runs.</source>
        <translation>La unidad funciona.</translation>
    </message>
    <message>
        <source>There is no way back to service from this state.</source>
        <translation>No hay camino de vuelta a servicio desde este estado.</translation>
    </message>
    <message>
        <source>Together about {minutes}.</source>
        <translation>En total unos {minutes}.</translation>
    </message>
    <message>
        <source>What to send</source>
        <translation>Qué enviar</translation>
    </message>
    <message>
        <source>{place}. {title}: about {minutes}, for: {lower}</source>
        <translation>{place}. {title}: unos {minutes}, para: {lower}</translation>
    </message>
    <message>
        <source>'{title}' was put right, and its proof held.</source>
        <translation>'{title}' se corrigió, y su prueba se cumplió.</translation>
    </message>
    <message>
        <source>1. Fixed by phone</source>
        <translation>1. Arreglado por teléfono</translation>
    </message>
    <message>
        <source>2. Send someone</source>
        <translation>2. Enviar a alguien</translation>
    </message>
    <message>
        <source>3. Make safe and wait</source>
        <translation>3. Poner en seguridad y esperar</translation>
    </message>
    <message>
        <source>A remedy waits for its proof: take that first.</source>
        <translation>Un remedio espera su prueba: hágala primero.</translation>
    </message>
    <message>
        <source>Back to the call</source>
        <translation>Volver a la llamada</translation>
    </message>
    <message>
        <source>Call back</source>
        <translation>Volver a llamar</translation>
    </message>
    <message>
        <source>Call back {lower}{words}</source>
        <translation>Volver a llamar: {lower}{words}</translation>
    </message>
    <message>
        <source>Case closed: fixed by phone</source>
        <translation>Caso cerrado: arreglado por teléfono</translation>
    </message>
    <message>
        <source>Choose people, parts and tools first; they get this record.</source>
        <translation>Elija primero personas, repuestos y herramientas; reciben este registro.</translation>
    </message>
    <message>
        <source>Close: fixed by phone</source>
        <translation>Cerrar: arreglado por teléfono</translation>
    </message>
    <message>
        <source>Close: handed over</source>
        <translation>Cerrar: entregado</translation>
    </message>
    <message>
        <source>Fixed by phone.</source>
        <translation>Arreglado por teléfono.</translation>
    </message>
    <message>
        <source>Hand over</source>
        <translation>Entregar</translation>
    </message>
    <message>
        <source>Hand the case over to whoever goes</source>
        <translation>Entregar el caso a quien va</translation>
    </message>
    <message>
        <source>How does the call end?</source>
        <translation>¿Cómo termina la llamada?</translation>
    </message>
    <message>
        <source>In 1 h</source>
        <translation>En 1 h</translation>
    </message>
    <message>
        <source>In 15 min</source>
        <translation>En 15 min</translation>
    </message>
    <message>
        <source>In 4 h</source>
        <translation>En 4 h</translation>
    </message>
    <message>
        <source>Made safe by phone; to be called back at {astimezone:%H:%M}</source>
        <translation>Puesta en seguridad por teléfono; volver a llamar a las {astimezone:%H:%M}</translation>
    </message>
    <message>
        <source>None of the causes here is one that a caller may put right.</source>
        <translation>Ninguna de las causas de aquí la puede corregir quien llama.</translation>
    </message>
    <message>
        <source>Only once a remedy that a caller may carry out has a proof that held.</source>
        <translation>Solo cuando un remedio que puede hacer quien llama tenga una prueba que se cumplió.</translation>
    </message>
    <message>
        <source>Read aloud, one after the other:</source>
        <translation>Léalo en voz alta, uno tras otro:</translation>
    </message>
    <message>
        <source>They have done this: wait</source>
        <translation>Ya lo hicieron: esperar</translation>
    </message>
    <message>
        <source>This time tomorrow</source>
        <translation>Mañana a esta hora</translation>
    </message>
    <message>
        <source>Try: {title}</source>
        <translation>Probar: {title}</translation>
    </message>
    <message>
        <source>What is waited for</source>
        <translation>Qué se espera</translation>
    </message>
    <message>
        <source>What is waited for, such as: somebody who knows the site</source>
        <translation>Qué se espera, por ejemplo: alguien que conozca el sitio</translation>
    </message>
    <message>
        <source>What the caller saw that proves it</source>
        <translation>Lo que vio quien llama y lo comprueba</translation>
    </message>
    <message>
        <source>the unit is made safe and waits</source>
        <translation>la unidad está en seguridad y espera</translation>
    </message>
    <message>
        <source> Enter on a row, or a double press, opens the case.</source>
        <translation> Intro en una fila, o una doble pulsación, abre el caso.</translation>
    </message>
    <message>
        <source> {count} fixes, median {median:.0f} min.</source>
        <translation> {count} arreglos, mediana {median:.0f} min.</translation>
    </message>
    <message>
        <source>'{what}' is no day. Write it as 2026-11-25, or leave it empty.</source>
        <translation>'{what}' no es un día. Escríbalo como 2026-11-25, o déjelo vacío.</translation>
    </message>
    <message>
        <source>All symptoms</source>
        <translation>Todos los síntomas</translation>
    </message>
    <message>
        <source>All units</source>
        <translation>Todas las unidades</translation>
    </message>
    <message>
        <source>As a table</source>
        <translation>Como tabla</translation>
    </message>
    <message>
        <source>Causes by month</source>
        <translation>Causas por mes</translation>
    </message>
    <message>
        <source>Causes by month; the same is in the table</source>
        <translation>Causas por mes; lo mismo está en la tabla</translation>
    </message>
    <message>
        <source>First go</source>
        <translation>A la primera</translation>
    </message>
    <message>
        <source>Fixed at the first go; the same is in the table</source>
        <translation>Arreglado a la primera; lo mismo está en la tabla</translation>
    </message>
    <message>
        <source>From day</source>
        <translation>Desde el día</translation>
    </message>
    <message>
        <source>Keep as CSV</source>
        <translation>Guardar como CSV</translation>
    </message>
    <message>
        <source>Keep every table as a CSV file</source>
        <translation>Guardar cada tabla como archivo CSV</translation>
    </message>
    <message>
        <source>Keep the tables in this folder</source>
        <translation>Guardar las tablas en esta carpeta</translation>
    </message>
    <message>
        <source>Minutes to the fix</source>
        <translation>Minutos hasta el arreglo</translation>
    </message>
    <message>
        <source>Minutes to the fix; the same is in the table</source>
        <translation>Minutos hasta el arreglo; lo mismo está en la tabla</translation>
    </message>
    <message>
        <source>Only this symptom</source>
        <translation>Solo este síntoma</translation>
    </message>
    <message>
        <source>Only this unit</source>
        <translation>Solo esta unidad</translation>
    </message>
    <message>
        <source>Open cases</source>
        <translation>Casos abiertos</translation>
    </message>
    <message>
        <source>Reading the case book ...</source>
        <translation>Leyendo el libro de casos ...</translation>
    </message>
    <message>
        <source>The case book is empty: cases that are worked on here, or opened from a file, come into it.</source>
        <translation>El libro de casos está vacío: aquí entran los casos que se trabajan o se abren desde un archivo.</translation>
    </message>
    <message>
        <source>To day</source>
        <translation>Hasta el día</translation>
    </message>
    <message>
        <source>What comes back</source>
        <translation>Lo que vuelve</translation>
    </message>
    <message>
        <source>What comes back, by unit; the same is in the table</source>
        <translation>Lo que vuelve, por unidad; lo mismo está en la tabla</translation>
    </message>
    <message>
        <source>opened on this day or before</source>
        <translation>abiertos ese día o antes</translation>
    </message>
    <message>
        <source>opened on this day or later</source>
        <translation>abiertos ese día o después</translation>
    </message>
    <message>
        <source>{count} of {of}</source>
        <translation>{count} de {of}</translation>
    </message>
    <message>
        <source>{folder} could not be written: {strerror}. Choose another folder.</source>
        <translation>No se pudo escribir en {folder}: {strerror}. Elija otra carpeta.</translation>
    </message>
    <message>
        <source>{join} are in {folder}.</source>
        <translation>{join} están en {folder}.</translation>
    </message>
    <message>
        <source>{words}, such as 2026-11-25: {meaning}</source>
        <translation>{words}, por ejemplo 2026-11-25: {meaning}</translation>
    </message>
    <message>
        <source> Too large together, and left out: {join}.</source>
        <translation> Demasiado grandes juntos, quedaron fuera: {join}.</translation>
    </message>
    <message>
        <source>Before</source>
        <translation>Anterior</translation>
    </message>
    <message>
        <source>Case</source>
        <translation>Caso</translation>
    </message>
    <message>
        <source>Causes</source>
        <translation>Causas</translation>
    </message>
    <message>
        <source>Close it here: handed over</source>
        <translation>Cerrarlo aquí: entregado</translation>
    </message>
    <message>
        <source>Hand this case over</source>
        <translation>Entregar este caso</translation>
    </message>
    <message>
        <source>Hand-overs (*.yaml)</source>
        <translation>Entregas (*.yaml)</translation>
    </message>
    <message>
        <source>How likely each is now, and what that was worked out with</source>
        <translation>Cuán probable es cada una ahora, y con qué se calculó</translation>
    </message>
    <message>
        <source>Journal</source>
        <translation>Diario</translation>
    </message>
    <message>
        <source>Looking up what goes along ...</source>
        <translation>Buscando lo que va junto ...</translation>
    </message>
    <message>
        <source>Names and telephone numbers</source>
        <translation>Nombres y números de teléfono</translation>
    </message>
    <message>
        <source>Next</source>
        <translation>Siguiente</translation>
    </message>
    <message>
        <source>None are written down</source>
        <translation>No hay ninguno anotado</translation>
    </message>
    <message>
        <source>Only if you tick it</source>
        <translation>Solo si lo marca</translation>
    </message>
    <message>
        <source>Photos and documents</source>
        <translation>Fotos y documentos</translation>
    </message>
    <message>
        <source>Save as a file</source>
        <translation>Guardar como archivo</translation>
    </message>
    <message>
        <source>Save the hand-over</source>
        <translation>Guardar la entrega</translation>
    </message>
    <message>
        <source>Save the hand-over as a file</source>
        <translation>Guardar la entrega como archivo</translation>
    </message>
    <message>
        <source>Scan code {what} of {count}, then the next</source>
        <translation>Lea el código {what} de {count}, luego el siguiente</translation>
    </message>
    <message>
        <source>Scan this code</source>
        <translation>Lea este código</translation>
    </message>
    <message>
        <source>Show as QR code</source>
        <translation>Mostrar como código QR</translation>
    </message>
    <message>
        <source>Tell whoever takes over, before they go near it</source>
        <translation>Dígaselo a quien recibe, antes de que se acerque</translation>
    </message>
    <message>
        <source>The case could not be looked up in the case book.</source>
        <translation>No se pudo buscar el caso en el libro de casos.</translation>
    </message>
    <message>
        <source>The code before</source>
        <translation>El código anterior</translation>
    </message>
    <message>
        <source>The code could not be drawn.</source>
        <translation>No se pudo dibujar el código.</translation>
    </message>
    <message>
        <source>The file is text: it goes by mail, chat or memory stick. The code is scanned by any telephone's camera; its text is pasted into FaultDoc there (Menu, Take over from scanned codes).</source>
        <translation>El archivo es texto: va por correo, chat o memoria. El código lo lee la cámara de cualquier teléfono; su texto se pega allá en FaultDoc (Menú, Recibir códigos leídos).</translation>
    </message>
    <message>
        <source>The hand-over is in {path}.</source>
        <translation>La entrega está en {path}.</translation>
    </message>
    <message>
        <source>The next code</source>
        <translation>El código siguiente</translation>
    </message>
    <message>
        <source>There are none.</source>
        <translation>No hay.</translation>
    </message>
    <message>
        <source>Unit</source>
        <translation>Unidad</translation>
    </message>
    <message>
        <source>What goes along</source>
        <translation>Lo que va junto</translation>
    </message>
    <message>
        <source>{counted}, each with its time and station</source>
        <translation>{counted}, cada uno con su hora y su puesto</translation>
    </message>
    <message>
        <source>{holdings}, the state of the plant</source>
        <translation>{holdings}, el estado de la instalación</translation>
    </message>
    <message>
        <source>{len}, together {what:.1f} MB; in a file only, up to 8 MB</source>
        <translation>{len}, juntos {what:.1f} MB; solo en un archivo, hasta 8 MB</translation>
    </message>
    <message>
        <source>{path} could not be written. Choose another folder.</source>
        <translation>No se pudo escribir {path}. Elija otra carpeta.</translation>
    </message>
    <message>
        <source>{people}. If not ticked, they and whatever looks like a number are taken out of notes too.</source>
        <translation>{people}. Si no se marca, se quitan también de las notas, con todo lo que parezca un número.</translation>
    </message>
    <message>
        <source>{title}, with its data sheet</source>
        <translation>{title}, con su hoja de datos</translation>
    </message>
    <message>
        <source>1 to 9</source>
        <translation>1 a 9</translation>
    </message>
    <message>
        <source>A first case, led by the hand</source>
        <translation>Un primer caso, paso a paso</translation>
    </message>
    <message>
        <source>Alt+1 to Alt+5</source>
        <translation>Alt+1 a Alt+5</translation>
    </message>
    <message>
        <source>Back to the step</source>
        <translation>Volver al paso</translation>
    </message>
    <message>
        <source>Choose the answer with that number</source>
        <translation>Elegir la respuesta con ese número</translation>
    </message>
    <message>
        <source>Close this tab; its case stays in the case book</source>
        <translation>Cerrar esta pestaña; su caso queda en el libro de casos</translation>
    </message>
    <message>
        <source>Colours for sunlight, for the night</source>
        <translation>Colores para sol, para noche</translation>
    </message>
    <message>
        <source>Could not measure</source>
        <translation>No se pudo medir</translation>
    </message>
    <message>
        <source>Ctrl+Tab, Ctrl+Shift+Tab</source>
        <translation>Ctrl+Tab, Ctrl+Mayús+Tab</translation>
    </message>
    <message>
        <source>Ctrl+plus, Ctrl+minus</source>
        <translation>Ctrl+más, Ctrl+menos</translation>
    </message>
    <message>
        <source>Decide how a call ends</source>
        <translation>Decidir cómo termina una llamada</translation>
    </message>
    <message>
        <source>Esc</source>
        <translation>Esc</translation>
    </message>
    <message>
        <source>Fault tree as a picture</source>
        <translation>Árbol de fallas como imagen</translation>
    </message>
    <message>
        <source>Fleet: open cases, what comes back, causes, minutes</source>
        <translation>Flota: casos abiertos, lo que vuelve, causas, minutos</translation>
    </message>
    <message>
        <source>Go to the next control; space or Enter presses it</source>
        <translation>Ir al control siguiente; espacio o Intro lo pulsa</translation>
    </message>
    <message>
        <source>Hand the case over: file or QR code</source>
        <translation>Entregar el caso: archivo o código QR</translation>
    </message>
    <message>
        <source>In practice: stop the clock or let it go on; the next speed</source>
        <translation>En práctica: parar el reloj o dejarlo seguir; la velocidad siguiente</translation>
    </message>
    <message>
        <source>Keyboard shortcuts</source>
        <translation>Atajos de teclado</translation>
    </message>
    <message>
        <source>Keyboard shortcuts (this page)</source>
        <translation>Atajos de teclado (esta página)</translation>
    </message>
    <message>
        <source>Larger, smaller letters</source>
        <translation>Letras más grandes, más chicas</translation>
    </message>
    <message>
        <source>Leave FaultDoc; every case stays in the case book</source>
        <translation>Salir de FaultDoc; cada caso queda en el libro de casos</translation>
    </message>
    <message>
        <source>Leave for later</source>
        <translation>Dejar para después</translation>
    </message>
    <message>
        <source>Many readings at once: typed, pasted, or from a logger's file</source>
        <translation>Muchas lecturas a la vez: escritas, pegadas o del archivo de un registrador</translation>
    </message>
    <message>
        <source>New case, in a tab of its own</source>
        <translation>Caso nuevo, en su propia pestaña</translation>
    </message>
    <message>
        <source>New unit from its nameplate</source>
        <translation>Unidad nueva desde su placa</translation>
    </message>
    <message>
        <source>Not sure</source>
        <translation>No estoy seguro</translation>
    </message>
    <message>
        <source>On the phone: put the notes into the record</source>
        <translation>Al teléfono: pasar las notas al registro</translation>
    </message>
    <message>
        <source>Open a case file or a hand-over</source>
        <translation>Abrir un archivo de caso o una entrega</translation>
    </message>
    <message>
        <source>Pictures of plant and readings; there N and P go from point to point, Enter presses one</source>
        <translation>Imágenes de la instalación y lecturas; ahí N y P van de punto en punto, Intro pulsa uno</translation>
    </message>
    <message>
        <source>Practice on a simulated unit</source>
        <translation>Práctica en una unidad simulada</translation>
    </message>
    <message>
        <source>Redo</source>
        <translation>Rehacer</translation>
    </message>
    <message>
        <source>Report</source>
        <translation>Informe</translation>
    </message>
    <message>
        <source>Save the case as a file</source>
        <translation>Guardar el caso como archivo</translation>
    </message>
    <message>
        <source>Search questions, causes and measuring points</source>
        <translation>Buscar preguntas, causas y puntos de medición</translation>
    </message>
    <message>
        <source>Step, causes, record, why, plant; in practice: unit, what to do, log</source>
        <translation>Paso, causas, registro, por qué, instalación; en práctica: unidad, qué hacer, bitácora</translation>
    </message>
    <message>
        <source>Stop: danger</source>
        <translation>Pare: peligro</translation>
    </message>
    <message>
        <source>Switch between US and SI units</source>
        <translation>Cambiar entre unidades de EE. UU. y SI</translation>
    </message>
    <message>
        <source>Tab</source>
        <translation>Tab</translation>
    </message>
    <message>
        <source>Take a case over from scanned codes</source>
        <translation>Recibir un caso de códigos leídos</translation>
    </message>
    <message>
        <source>The call, or the step as on site</source>
        <translation>La llamada, o el paso como en el sitio</translation>
    </message>
    <message>
        <source>The next open case, the one before</source>
        <translation>El caso abierto siguiente, el anterior</translation>
    </message>
    <message>
        <source>Undo</source>
        <translation>Deshacer</translation>
    </message>
    <message>
        <source>What cases taught</source>
        <translation>Lo que enseñaron los casos</translation>
    </message>
    <message>
        <source>What to send: parts, tools and people</source>
        <translation>Qué enviar: repuestos, herramientas y personas</translation>
    </message>
    <message>
        <source>And {more} more for less likely causes.</source>
        <translation>Y {more} más para causas menos probables.</translation>
    </message>
    <message>
        <source>Best kit again</source>
        <translation>El mejor equipo otra vez</translation>
    </message>
    <message>
        <source>Fix on the first visit: {chance}</source>
        <translation>Arreglo en la primera visita: {chance}</translation>
    </message>
    <message>
        <source>For: {title}.</source>
        <translation>Para: {title}.</translation>
    </message>
    <message>
        <source>From the shelf</source>
        <translation>Del almacén</translation>
    </message>
    <message>
        <source>Hired in: put it in when it is there</source>
        <translation>Alquilado: póngalo cuando esté</translation>
    </message>
    <message>
        <source>Keep as HTML</source>
        <translation>Guardar como HTML</translation>
    </message>
    <message>
        <source>Keep as PDF</source>
        <translation>Guardar como PDF</translation>
    </message>
    <message>
        <source>Keep what to send</source>
        <translation>Guardar qué enviar</translation>
    </message>
    <message>
        <source>Match {match}.</source>
        <translation>Debe coincidir: {match}.</translation>
    </message>
    <message>
        <source>Most people</source>
        <translation>Máximo de personas</translation>
    </message>
    <message>
        <source>Most special items</source>
        <translation>Máximo de piezas especiales</translation>
    </message>
    <message>
        <source>Most weight</source>
        <translation>Peso máximo</translation>
    </message>
    <message>
        <source>Must be ordered: put it in when it has come</source>
        <translation>Hay que pedirlo: póngalo cuando haya llegado</translation>
    </message>
    <message>
        <source>Next best to add</source>
        <translation>Lo siguiente que conviene agregar</translation>
    </message>
    <message>
        <source>Not sent.</source>
        <translation>No enviado.</translation>
    </message>
    <message>
        <source>Not served by this visit</source>
        <translation>No lo cubre esta visita</translation>
    </message>
    <message>
        <source>Not taken</source>
        <translation>No se lleva</translation>
    </message>
    <message>
        <source>Nothing.</source>
        <translation>Nada.</translation>
    </message>
    <message>
        <source>Over the {join}.</source>
        <translation>Por encima de: {join}.</translation>
    </message>
    <message>
        <source>See that these are on the van</source>
        <translation>Vea que esto esté en la camioneta</translation>
    </message>
    <message>
        <source>Together {load_words}.</source>
        <translation>Juntos {load_words}.</translation>
    </message>
    <message>
        <source>What goes, beyond what is on every van</source>
        <translation>Qué va, además de lo que lleva toda camioneta</translation>
    </message>
    <message>
        <source>Who goes</source>
        <translation>Quién va</translation>
    </message>
    <message>
        <source>Working out what to send ...</source>
        <translation>Calculando qué enviar ...</translation>
    </message>
    <message>
        <source>{title}: less</source>
        <translation>{title}: menos</translation>
    </message>
    <message>
        <source>{title}: more</source>
        <translation>{title}: más</translation>
    </message>
    <message>
        <source>90 % interval</source>
        <translation>Intervalo de 90 %</translation>
    </message>
    <message>
        <source>Accept</source>
        <translation>Aceptar</translation>
    </message>
    <message>
        <source>Accept the ticked</source>
        <translation>Aceptar lo marcado</translation>
    </message>
    <message>
        <source>After</source>
        <translation>Después</translation>
    </message>
    <message>
        <source>All lines that moved</source>
        <translation>Todas las líneas que cambiaron</translation>
    </message>
    <message>
        <source>Cases</source>
        <translation>Casos</translation>
    </message>
    <message>
        <source>Forget all accepted</source>
        <translation>Olvidar todo lo aceptado</translation>
    </message>
    <message>
        <source>Moved</source>
        <translation>Cambió</translation>
    </message>
    <message>
        <source>No case has taught anything yet.</source>
        <translation>Ningún caso ha enseñado nada todavía.</translation>
    </message>
    <message>
        <source>No number moved by more than noise; {hidden} moved by less.</source>
        <translation>Ningún número cambió más que el ruido; {hidden} cambiaron menos.</translation>
    </message>
    <message>
        <source>Now</source>
        <translation>Ahora</translation>
    </message>
    <message>
        <source>Only what moved</source>
        <translation>Solo lo que cambió</translation>
    </message>
    <message>
        <source>Passed over of what was accepted: {said}</source>
        <translation>Se pasó por alto de lo aceptado: {said}</translation>
    </message>
    <message>
        <source>Rates are per 1,000 visits.</source>
        <translation>Las tasas son por cada 1,000 visitas.</translation>
    </message>
    <message>
        <source>Reading the closed cases ...</source>
        <translation>Leyendo los casos cerrados ...</translation>
    </message>
    <message>
        <source>Show what it does to this case</source>
        <translation>Mostrar qué le hace a este caso</translation>
    </message>
    <message>
        <source>That could not be written.</source>
        <translation>Eso no se pudo escribir.</translation>
    </message>
    <message>
        <source>The case could not be worked out.</source>
        <translation>No se pudo calcular el caso.</translation>
    </message>
    <message>
        <source>The cases could not be read.</source>
        <translation>No se pudieron leer los casos.</translation>
    </message>
    <message>
        <source>The ticked lines</source>
        <translation>Las líneas marcadas</translation>
    </message>
    <message>
        <source>Tick all</source>
        <translation>Marcar todo</translation>
    </message>
    <message>
        <source>Tick all lines shown</source>
        <translation>Marcar todas las líneas mostradas</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Qué</translation>
    </message>
    <message>
        <source>What closed cases taught</source>
        <translation>Lo que enseñaron los casos cerrados</translation>
    </message>
    <message>
        <source>What it does to a case: choose one</source>
        <translation>Qué le hace a un caso: elija uno</translation>
    </message>
    <message>
        <source>What was accepted is forgotten: the trees' own values hold again.</source>
        <translation>Lo aceptado se olvidó: valen otra vez los valores de los árboles.</translation>
    </message>
    <message>
        <source>Working it out ...</source>
        <translation>Calculando ...</translation>
    </message>
    <message>
        <source>nothing to speak of</source>
        <translation>nada que valga la pena</translation>
    </message>
    <message>
        <source>{count} accepted. They hold for every case opened from now on.</source>
        <translation>{count} aceptados. Valen para todo caso que se abra desde ahora.</translation>
    </message>
    <message>
        <source>{len} line{what}</source>
        <translation>{len} línea(s)</translation>
    </message>
    <message>
        <source>{low:.3g} to {high:.3g}</source>
        <translation>{low:.3g} a {high:.3g}</translation>
    </message>
    <message>
        <source>{title}: {before} to {after}</source>
        <translation>{title}: de {before} a {after}</translation>
    </message>
    <message>
        <source>{title}: {said}. Before that: {value}. {unit}</source>
        <translation>{title}: {said}. Antes: {value}. {unit}</translation>
    </message>
    <message>
        <source>{which} would change, in '{title}': {what}.</source>
        <translation>{which} cambiarían en '{title}': {what}.</translation>
    </message>
    <message>
        <source>☑ yes</source>
        <translation>☑ sí</translation>
    </message>
    <message>
        <source>Colours (Ctrl+Shift+L changes them anywhere)</source>
        <translation>Colores (Ctrl+Mayús+L los cambia en cualquier lugar)</translation>
    </message>
    <message>
        <source>For sunlight</source>
        <translation>Para sol</translation>
    </message>
    <message>
        <source>For the night</source>
        <translation>Para noche</translation>
    </message>
    <message>
        <source>Language (from the next start on)</source>
        <translation>Idioma (desde el próximo inicio)</translation>
    </message>
    <message>
        <source>Letters (Ctrl+plus and Ctrl+minus anywhere)</source>
        <translation>Letras (Ctrl+más y Ctrl+menos en cualquier lugar)</translation>
    </message>
    <message>
        <source>Letters at {words}</source>
        <translation>Letras al {words}</translation>
    </message>
    <message>
        <source>Looks</source>
        <translation>Aspecto</translation>
    </message>
    <message>
        <source>Read this line from as far off as you hold the screen at work.</source>
        <translation>Lea esta línea desde tan lejos como tiene la pantalla al trabajar.</translation>
    </message>
    <message>
        <source>A visit could not be reckoned.</source>
        <translation>No se pudo calcular una visita.</translation>
    </message>
    <message>
        <source>And {what} more: type another word.</source>
        <translation>Y {what} más: escriba otra palabra.</translation>
    </message>
    <message>
        <source>Answered: {answer}. Choose to change it.</source>
        <translation>Respondido: {answer}. Elíjalo para cambiarlo.</translation>
    </message>
    <message>
        <source>Call ended for safety after {minutes}</source>
        <translation>Llamada terminada por seguridad después de {minutes}</translation>
    </message>
    <message>
        <source>Call of {minutes} ended</source>
        <translation>Llamada de {minutes} terminada</translation>
    </message>
    <message>
        <source>Called back</source>
        <translation>Se volvió a llamar</translation>
    </message>
    <message>
        <source>Caller</source>
        <translation>Quien llama</translation>
    </message>
    <message>
        <source>Decide</source>
        <translation>Decidir</translation>
    </message>
    <message>
        <source>Decide how the call ends (F4)</source>
        <translation>Decidir cómo termina la llamada (F4)</translation>
    </message>
    <message>
        <source>Minutes to travel to the site</source>
        <translation>Minutos de viaje hasta el sitio</translation>
    </message>
    <message>
        <source>No question has these words. Try fewer, or write a note.</source>
        <translation>Ninguna pregunta tiene estas palabras. Pruebe con menos, o escriba una nota.</translation>
    </message>
    <message>
        <source>Not for a caller. {why_not}</source>
        <translation>No es para quien llama. {why_not}</translation>
    </message>
    <message>
        <source>Reckoning a visit ...</source>
        <translation>Calculando una visita ...</translation>
    </message>
    <message>
        <source>The caller tells something else? Type a word of it (Ctrl+F)</source>
        <translation>¿Quien llama cuenta otra cosa? Escriba una palabra de ello (Ctrl+F)</translation>
    </message>
    <message>
        <source>The notes cannot be kept as they are typed.</source>
        <translation>Las notas no se pueden guardar mientras se escriben.</translation>
    </message>
    <message>
        <source>Travel, minutes</source>
        <translation>Viaje, minutos</translation>
    </message>
    <message>
        <source>What the caller volunteers, in a word or two (Ctrl+F)</source>
        <translation>Lo que cuenta quien llama, en una o dos palabras (Ctrl+F)</translation>
    </message>
    <message>
        <source>Ask later</source>
        <translation>Preguntar después</translation>
    </message>
    <message>
        <source>Ask later (Ctrl+L)</source>
        <translation>Preguntar después (Ctrl+L)</translation>
    </message>
    <message>
        <source>Back to the question proposed</source>
        <translation>Volver a la pregunta propuesta</translation>
    </message>
    <message>
        <source>Does not know</source>
        <translation>No sabe</translation>
    </message>
    <message>
        <source>For you: how it is done at the unit</source>
        <translation>Para usted: cómo se hace en la unidad</translation>
    </message>
    <message>
        <source>I have read this aloud, and the caller says that all are clear of it.</source>
        <translation>Leí esto en voz alta, y quien llama dice que todos están lejos de eso.</translation>
    </message>
    <message>
        <source>If the caller hesitates: {hesitates}</source>
        <translation>Si quien llama duda: {hesitates}</translation>
    </message>
    <message>
        <source>On the way to {toward}</source>
        <translation>En camino a {toward}</translation>
    </message>
    <message>
        <source>READ ALOUD</source>
        <translation>LEA EN VOZ ALTA</translation>
    </message>
    <message>
        <source>Said: end the call</source>
        <translation>Dicho: terminar la llamada</translation>
    </message>
    <message>
        <source>TELL THE CALLER</source>
        <translation>DÍGASELO A QUIEN LLAMA</translation>
    </message>
    <message>
        <source>The caller does not know (Ctrl+K)</source>
        <translation>Quien llama no sabe (Ctrl+K)</translation>
    </message>
    <message>
        <source>The caller will not or cannot (Ctrl+M)</source>
        <translation>Quien llama no quiere o no puede (Ctrl+M)</translation>
    </message>
    <message>
        <source>What to say now</source>
        <translation>Qué decir ahora</translation>
    </message>
    <message>
        <source>Will not, or cannot</source>
        <translation>No quiere o no puede</translation>
    </message>
    <message>
        <source> Press a point to write down its reading.</source>
        <translation> Pulse un punto para anotar su lectura.</translation>
    </message>
    <message>
        <source>Belief over the steps</source>
        <translation>Probabilidad a lo largo de los pasos</translation>
    </message>
    <message>
        <source>Farther</source>
        <translation>Alejar</translation>
    </message>
    <message>
        <source>Nearer</source>
        <translation>Acercar</translation>
    </message>
    <message>
        <source>Next picture</source>
        <translation>Imagen siguiente</translation>
    </message>
    <message>
        <source>Previous</source>
        <translation>Anterior</translation>
    </message>
    <message>
        <source>Previous picture</source>
        <translation>Imagen anterior</translation>
    </message>
    <message>
        <source>The picture could not be drawn.</source>
        <translation>No se pudo dibujar la imagen.</translation>
    </message>
    <message>
        <source>Which picture</source>
        <translation>Qué imagen</translation>
    </message>
    <message>
        <source>Whole</source>
        <translation>Entera</translation>
    </message>
    <message>
        <source>Whole picture</source>
        <translation>Imagen entera</translation>
    </message>
    <message>
        <source>Ask the caller: how does the plant stand now?</source>
        <translation>Pregunte a quien llama: ¿cómo está ahora la instalación?</translation>
    </message>
    <message>
        <source>Begin</source>
        <translation>Empezar</translation>
    </message>
    <message>
        <source>Choose at least one.</source>
        <translation>Elija al menos una.</translation>
    </message>
    <message>
        <source>Choose every qualification held there. Local law and the site decide who may do what.</source>
        <translation>Elija cada calificación que haya ahí. La ley local y el sitio deciden quién puede hacer qué.</translation>
    </message>
    <message>
        <source>How does the plant stand now?</source>
        <translation>¿Cómo está ahora la instalación?</translation>
    </message>
    <message>
        <source>Say what is so, not what should be. If you do not know, go and look, or ask the caller.</source>
        <translation>Diga lo que es, no lo que debería ser. Si no lo sabe, vaya a ver, o pregunte a quien llama.</translation>
    </message>
    <message>
        <source>This cannot be. {why}</source>
        <translation>Esto no puede ser. {why}</translation>
    </message>
    <message>
        <source>This is so</source>
        <translation>Así es</translation>
    </message>
    <message>
        <source>What the caller does not know stays as it stands here. A dark unit may still be live.</source>
        <translation>Lo que quien llama no sabe queda como está aquí. Una unidad apagada puede seguir con tensión.</translation>
    </message>
    <message>
        <source>Who is there?</source>
        <translation>¿Quién está ahí?</translation>
    </message>
    <message>
        <source>Kept under the name {name}.</source>
        <translation>Guardado con el nombre {name}.</translation>
    </message>
    <message>
        <source>Making up a call ...</source>
        <translation>Inventando una llamada ...</translation>
    </message>
    <message>
        <source>No call could be made up.</source>
        <translation>No se pudo inventar ninguna llamada.</translation>
    </message>
    <message>
        <source>The result could not be kept.</source>
        <translation>No se pudo guardar el resultado.</translation>
    </message>
    <message>
        <source>The scenarios could not be read.</source>
        <translation>No se pudieron leer los escenarios.</translation>
    </message>
    <message>
        <source>What was done before is not known: {problem}.</source>
        <translation>No se sabe lo que se hizo antes: {problem}.</translation>
    </message>
    <message>
        <source> and {what} more</source>
        <translation> y {what} más</translation>
    </message>
    <message>
        <source>Everything</source>
        <translation>Todo</translation>
    </message>
    <message>
        <source>Find a measuring point</source>
        <translation>Buscar un punto de medición</translation>
    </message>
    <message>
        <source>Find: suction ...</source>
        <translation>Buscar: succión ...</translation>
    </message>
    <message>
        <source>Logger's file ...</source>
        <translation>Archivo de registrador ...</translation>
    </message>
    <message>
        <source>No measuring point is called {join}{what}. Type it into its row, or name it as the rows here do.</source>
        <translation>Ningún punto de medición se llama {join}{what}. Escríbalo en su fila, o nómbrelo como las filas de aquí.</translation>
    </message>
    <message>
        <source>Open a logger's file</source>
        <translation>Abrir el archivo de un registrador</translation>
    </message>
    <message>
        <source>Paste</source>
        <translation>Pegar</translation>
    </message>
    <message>
        <source>Paste from a spreadsheet</source>
        <translation>Pegar de una hoja de cálculo</translation>
    </message>
    <message>
        <source>Readings</source>
        <translation>Lecturas</translation>
    </message>
    <message>
        <source>Tables (*.csv *.txt *.tsv);;All files (*)</source>
        <translation>Tablas (*.csv *.txt *.tsv);;Todos los archivos (*)</translation>
    </message>
    <message>
        <source>Take them all</source>
        <translation>Tomarlas todas</translation>
    </message>
    <message>
        <source>Take {ready} reading{what}</source>
        <translation>Tomar {ready} lectura(s)</translation>
    </message>
    <message>
        <source>The file cannot be used.</source>
        <translation>El archivo no se puede usar.</translation>
    </message>
    <message>
        <source>There is nothing to paste: copy cells of a spreadsheet first.</source>
        <translation>No hay nada que pegar: copie primero celdas de una hoja de cálculo.</translation>
    </message>
    <message>
        <source>These readings are in the case already.</source>
        <translation>Estas lecturas ya están en el caso.</translation>
    </message>
    <message>
        <source>Type readings in any order, with or without units; Enter goes down. Ctrl+V pastes a table.</source>
        <translation>Escriba lecturas en cualquier orden, con unidades o sin ellas; Intro baja. Ctrl+V pega una tabla.</translation>
    </message>
    <message>
        <source>Which part of the plant</source>
        <translation>Qué parte de la instalación</translation>
    </message>
    <message>
        <source>{count} reading{what} from the sheet: {titles}</source>
        <translation>{count} lectura(s) de la hoja: {titles}</translation>
    </message>
    <message>
        <source>{ready} ready to be taken.</source>
        <translation>{ready} lista(s) para tomar.</translation>
    </message>
    <message>
        <source>{ready} ready. Left here until mended or kept: {titles}.</source>
        <translation>{ready} lista(s). Quedan aquí hasta corregirlas o confirmarlas: {titles}.</translation>
    </message>
    <message>
        <source>And {more} more.</source>
        <translation>Y {more} más.</translation>
    </message>
    <message>
        <source>Decide {left} more below first.</source>
        <translation>Decida primero {left} más abajo.</translation>
    </message>
    <message>
        <source>Leave it</source>
        <translation>Dejarlo</translation>
    </message>
    <message>
        <source>Nothing here was changed.</source>
        <translation>Aquí no cambió nada.</translation>
    </message>
    <message>
        <source>Reading {name} ...</source>
        <translation>Leyendo {name} ...</translation>
    </message>
    <message>
        <source>Scan every code with a telephone's camera, send yourself the text, and paste all of it here. The order does not matter. A scanner that types can type straight into the field.</source>
        <translation>Lea cada código con la cámara de un teléfono, envíese el texto y péguelo todo aquí. El orden no importa. Un lector que escribe puede escribir directo en el campo.</translation>
    </message>
    <message>
        <source>See what it is</source>
        <translation>Ver qué es</translation>
    </message>
    <message>
        <source>Take a case over</source>
        <translation>Recibir un caso</translation>
    </message>
    <message>
        <source>Take it over and go on</source>
        <translation>Recibirlo y seguir</translation>
    </message>
    <message>
        <source>The case was worked on at both stations. Nothing is taken until you have chosen.</source>
        <translation>El caso se trabajó en los dos puestos. No se toma nada hasta que usted elija.</translation>
    </message>
    <message>
        <source>The hand-over could not be opened.</source>
        <translation>No se pudo abrir la entrega.</translation>
    </message>
    <message>
        <source>The text of the codes</source>
        <translation>El texto de los códigos</translation>
    </message>
    <message>
        <source>This cannot be taken over</source>
        <translation>Esto no se puede recibir</translation>
    </message>
    <message>
        <source>To be decided</source>
        <translation>Por decidir</translation>
    </message>
    <message>
        <source>as it was at the start</source>
        <translation>como estaba al comienzo</translation>
    </message>
    <message>
        <source>station not known</source>
        <translation>puesto desconocido</translation>
    </message>
    <message>
        <source>what was pasted</source>
        <translation>lo que se pegó</translation>
    </message>
    <message>
        <source>&lt;p&gt;The report could not be made.&lt;/p&gt;</source>
        <translation>&lt;p&gt;No se pudo hacer el informe.&lt;/p&gt;</translation>
    </message>
    <message>
        <source>&lt;p&gt;The report is being made.&lt;/p&gt;</source>
        <translation>&lt;p&gt;Se está haciendo el informe.&lt;/p&gt;</translation>
    </message>
    <message>
        <source>Customer page only</source>
        <translation>Solo la página del cliente</translation>
    </message>
    <message>
        <source>Only the one page in plain words, to be signed</source>
        <translation>Solo la página en palabras sencillas, para firmar</translation>
    </message>
    <message>
        <source>Print</source>
        <translation>Imprimir</translation>
    </message>
    <message>
        <source>Print names and telephone numbers</source>
        <translation>Imprimir nombres y números de teléfono</translation>
    </message>
    <message>
        <source>Print the photos kept with the case</source>
        <translation>Imprimir las fotos guardadas con el caso</translation>
    </message>
    <message>
        <source>Save as HTML</source>
        <translation>Guardar como HTML</translation>
    </message>
    <message>
        <source>Save as PDF</source>
        <translation>Guardar como PDF</translation>
    </message>
    <message>
        <source>Save the report</source>
        <translation>Guardar el informe</translation>
    </message>
    <message>
        <source>The report</source>
        <translation>El informe</translation>
    </message>
    <message>
        <source>The report could not be made.</source>
        <translation>No se pudo hacer el informe.</translation>
    </message>
    <message>
        <source>With names</source>
        <translation>Con nombres</translation>
    </message>
    <message>
        <source>With photos</source>
        <translation>Con fotos</translation>
    </message>
    <message>
        <source>Cause: {title}</source>
        <translation>Causa: {title}</translation>
    </message>
    <message>
        <source>Nothing here has these words. Try fewer or other ones.</source>
        <translation>Nada de aquí tiene estas palabras. Pruebe con menos, o con otras.</translation>
    </message>
    <message>
        <source>Question: {tech}</source>
        <translation>Pregunta: {tech}</translation>
    </message>
    <message>
        <source>Search</source>
        <translation>Buscar</translation>
    </message>
    <message>
        <source>Type a word or two.</source>
        <translation>Escriba una o dos palabras.</translation>
    </message>
    <message>
        <source>Words such as: strainer, coupling, voltage</source>
        <translation>Palabras como: filtro, acoplamiento, tensión</translation>
    </message>
    <message>
        <source>Write down a reading: {title}</source>
        <translation>Anotar una lectura: {title}</translation>
    </message>
    <message>
        <source>'{title}' is for units with {join}; this unit has none.</source>
        <translation>'{title}' es para unidades con {join}; esta unidad no tiene.</translation>
    </message>
    <message>
        <source>1 day ago</source>
        <translation>hace 1 día</translation>
    </message>
    <message>
        <source>1 hour ago</source>
        <translation>hace 1 hora</translation>
    </message>
    <message>
        <source>1 minute ago</source>
        <translation>hace 1 minuto</translation>
    </message>
    <message>
        <source>1. Which unit?</source>
        <translation>1. ¿Qué unidad?</translation>
    </message>
    <message>
        <source>2. What is seen?</source>
        <translation>2. ¿Qué se ve?</translation>
    </message>
    <message>
        <source>3. Job title, if you want one</source>
        <translation>3. Título del trabajo, si quiere</translation>
    </message>
    <message>
        <source>Choose the unit and what is seen. More than one thing may be seen at once.</source>
        <translation>Elija la unidad y lo que se ve. Puede verse más de una cosa a la vez.</translation>
    </message>
    <message>
        <source>Choose {join} first.</source>
        <translation>Elija primero {join}.</translation>
    </message>
    <message>
        <source>For example: Tuesday call, west yard</source>
        <translation>Por ejemplo: llamada del martes, patio oeste</translation>
    </message>
    <message>
        <source>Go on with {title}</source>
        <translation>Seguir con {title}</translation>
    </message>
    <message>
        <source>Go on: a caller is on the phone</source>
        <translation>Seguir: alguien llama por teléfono</translation>
    </message>
    <message>
        <source>Go on: plant and people</source>
        <translation>Seguir: instalación y personas</translation>
    </message>
    <message>
        <source>Job title, optional</source>
        <translation>Título del trabajo, opcional</translation>
    </message>
    <message>
        <source>Last: {last}</source>
        <translation>Último: {last}</translation>
    </message>
    <message>
        <source>Looking for unfinished cases ...</source>
        <translation>Buscando casos sin terminar ...</translation>
    </message>
    <message>
        <source>New case</source>
        <translation>Caso nuevo</translation>
    </message>
    <message>
        <source>New here? See a first case through: about two minutes, nothing is real.</source>
        <translation>¿Es nuevo aquí? Vea un primer caso completo: unos dos minutos, nada es real.</translation>
    </message>
    <message>
        <source>Not finished</source>
        <translation>Sin terminar</translation>
    </message>
    <message>
        <source>Nothing done yet</source>
        <translation>Nada hecho todavía</translation>
    </message>
    <message>
        <source>Nothing in the list has these words. Clear them to see all of it.</source>
        <translation>Nada de la lista tiene estas palabras. Bórrelas para verla entera.</translation>
    </message>
    <message>
        <source>Open a case file</source>
        <translation>Abrir un archivo de caso</translation>
    </message>
    <message>
        <source>Practice</source>
        <translation>Práctica</translation>
    </message>
    <message>
        <source>Reading the fault trees and data sheets ...</source>
        <translation>Leyendo los árboles de fallas y las hojas de datos ...</translation>
    </message>
    <message>
        <source>Show all {len}</source>
        <translation>Mostrar los {len}</translation>
    </message>
    <message>
        <source>Show me a first case</source>
        <translation>Mostrarme un primer caso</translation>
    </message>
    <message>
        <source>Type a word of it to shorten the list, such as pump, breaker, cold, noise</source>
        <translation>Escriba una palabra de ello para acortar la lista, como bomba, interruptor, frío, ruido</translation>
    </message>
    <message>
        <source>Words of what is seen, to shorten the list</source>
        <translation>Palabras de lo que se ve, para acortar la lista</translation>
    </message>
    <message>
        <source>just now</source>
        <translation>ahora mismo</translation>
    </message>
    <message>
        <source>what is seen</source>
        <translation>qué se ve</translation>
    </message>
    <message>
        <source>which unit it is</source>
        <translation>qué unidad es</translation>
    </message>
    <message>
        <source>{count} days ago</source>
        <translation>hace {count} días</translation>
    </message>
    <message>
        <source>{count} hours ago</source>
        <translation>hace {count} horas</translation>
    </message>
    <message>
        <source>{count} minutes ago</source>
        <translation>hace {count} minutos</translation>
    </message>
    <message>
        <source>Back to the step proposed</source>
        <translation>Volver al paso propuesto</translation>
    </message>
    <message>
        <source>CHANGE THE PLANT</source>
        <translation>CAMBIE LA INSTALACIÓN</translation>
    </message>
    <message>
        <source>CORRECT THE RECORD</source>
        <translation>CORRIJA EL REGISTRO</translation>
    </message>
    <message>
        <source>DONE</source>
        <translation>HECHO</translation>
    </message>
    <message>
        <source>HAND OVER</source>
        <translation>ENTREGUE</translation>
    </message>
    <message>
        <source>I have read this and everyone here is clear and protected.</source>
        <translation>Leí esto y todos aquí están lejos y protegidos.</translation>
    </message>
    <message>
        <source>PROOF</source>
        <translation>PRUEBA</translation>
    </message>
    <message>
        <source>QUESTION</source>
        <translation>PREGUNTA</translation>
    </message>
    <message>
        <source>REMEDY</source>
        <translation>REMEDIO</translation>
    </message>
    <message>
        <source>STOP</source>
        <translation>PARE</translation>
    </message>
    <message>
        <source>Show the arithmetic</source>
        <translation>Mostrar el cálculo</translation>
    </message>
    <message>
        <source>The plant must be, and is: {lower}.</source>
        <translation>La instalación debe estar, y está: {lower}.</translation>
    </message>
    <message>
        <source>The step now</source>
        <translation>El paso de ahora</translation>
    </message>
    <message>
        <source>You chose this instead of the step proposed.</source>
        <translation>Usted eligió esto en vez del paso propuesto.</translation>
    </message>
    <message>
        <source>about {minutes}</source>
        <translation>unos {minutes}</translation>
    </message>
    <message>
        <source>for: {lower}</source>
        <translation>para: {lower}</translation>
    </message>
    <message>
        <source>Call</source>
        <translation>Llame</translation>
    </message>
    <message>
        <source>Choose it, and read the words aloud that follow. In doubt take the first.</source>
        <translation>Elíjalo y lea en voz alta las palabras que siguen. Si duda, tome lo primero.</translation>
    </message>
    <message>
        <source>It was something else</source>
        <translation>Era otra cosa</translation>
    </message>
    <message>
        <source>Keep these numbers</source>
        <translation>Guardar estos números</translation>
    </message>
    <message>
        <source>No emergency numbers are written down here yet. Write the site's below.</source>
        <translation>Todavía no hay números de emergencia anotados. Escriba abajo los del sitio.</translation>
    </message>
    <message>
        <source>Nothing of it: back to the call</source>
        <translation>Nada de eso: volver a la llamada</translation>
    </message>
    <message>
        <source>Site emergency: ...
Fire and ambulance: ...</source>
        <translation>Emergencias del sitio: ...
Bomberos y ambulancia: ...</translation>
    </message>
    <message>
        <source>Smoke, arcing, a burnt smell, water on live gear, or refrigerant hissing out: get everyone away and up-wind, touch nothing, call for help.</source>
        <translation>Humo, arcos, olor a quemado, agua sobre equipo con tensión o refrigerante que silba al escapar: aleje a todos, del lado de donde viene el viento, no toque nada, pida ayuda.</translation>
    </message>
    <message>
        <source>Stop work and get clear if you meet any of these</source>
        <translation>Deje de trabajar y aléjese si encuentra algo de esto</translation>
    </message>
    <message>
        <source>What has the caller told of?</source>
        <translation>¿De qué habló quien llama?</translation>
    </message>
    <message>
        <source>Your emergency numbers, one a line</source>
        <translation>Sus números de emergencia, uno por línea</translation>
    </message>
    <message>
        <source>Fault tree. Arrow keys move it, plus and minus come nearer and go farther.</source>
        <translation>Árbol de fallas. Las flechas lo mueven, más y menos lo acercan y alejan.</translation>
    </message>
    <message>
        <source>Find in the tree</source>
        <translation>Buscar en el árbol</translation>
    </message>
    <message>
        <source>Find: pump, fuse ...</source>
        <translation>Buscar: bomba, fusible ...</translation>
    </message>
    <message>
        <source>From what is seen, left, to its causes. Dashed: a circumstance that must be so.</source>
        <translation>De lo que se ve, a la izquierda, a sus causas. Con rayas: una circunstancia que debe darse.</translation>
    </message>
    <message>
        <source>Next one found</source>
        <translation>Siguiente encontrado</translation>
    </message>
    <message>
        <source>Nothing in this tree has these words.</source>
        <translation>Nada de este árbol tiene estas palabras.</translation>
    </message>
    <message>
        <source>The darker, the likelier: a shade each from {steps}. Press a cause to see why.</source>
        <translation>Cuanto más oscuro, más probable: un tono por cada {steps}. Pulse una causa para ver por qué.</translation>
    </message>
    <message>
        <source>This case</source>
        <translation>Este caso</translation>
    </message>
    <message>
        <source>Which fault tree</source>
        <translation>Qué árbol de fallas</translation>
    </message>
    <message>
        <source>Whole tree</source>
        <translation>Árbol entero</translation>
    </message>
    <message>
        <source>{place} of {len}: {titles}</source>
        <translation>{place} de {len}: {titles}</translation>
    </message>
    <message>
        <source>'{title}' is kept in {path}.</source>
        <translation>'{title}' está guardada en {path}.</translation>
    </message>
    <message>
        <source>Change it</source>
        <translation>Cambiarlo</translation>
    </message>
    <message>
        <source>Change it: {name}</source>
        <translation>Cambiarlo: {name}</translation>
    </message>
    <message>
        <source>Change something</source>
        <translation>Cambiar algo</translation>
    </message>
    <message>
        <source>Compressors</source>
        <translation>Compresores</translation>
    </message>
    <message>
        <source>Cooling capacity</source>
        <translation>Capacidad de enfriamiento</translation>
    </message>
    <message>
        <source>Empty the form</source>
        <translation>Vaciar el formulario</translation>
    </message>
    <message>
        <source>Is this right?</source>
        <translation>¿Está bien esto?</translation>
    </message>
    <message>
        <source>It is so: keep it</source>
        <translation>Es así: dejarlo</translation>
    </message>
    <message>
        <source>Keep both: this one as {id}</source>
        <translation>Dejar ambas: esta como {id}</translation>
    </message>
    <message>
        <source>Keep or change each doubt first.</source>
        <translation>Confirme o cambie primero cada duda.</translation>
    </message>
    <message>
        <source>Keep this unit</source>
        <translation>Guardar esta unidad</translation>
    </message>
    <message>
        <source>Kept as</source>
        <translation>Guardada como</translation>
    </message>
    <message>
        <source>Not on the plate. Checks count these with a wide uncertainty; better values can replace them.</source>
        <translation>No está en la placa. Las comprobaciones lo cuentan con mucha incertidumbre; valores mejores pueden reemplazarlo.</translation>
    </message>
    <message>
        <source>Pump of its own</source>
        <translation>Bomba propia</translation>
    </message>
    <message>
        <source>Refrigerant</source>
        <translation>Refrigerante</translation>
    </message>
    <message>
        <source>Replace the other</source>
        <translation>Reemplazar la otra</translation>
    </message>
    <message>
        <source>See what is made of it</source>
        <translation>Ver qué se entiende</translation>
    </message>
    <message>
        <source>Supply</source>
        <translation>Alimentación</translation>
    </message>
    <message>
        <source>The unit could not be kept.</source>
        <translation>No se pudo guardar la unidad.</translation>
    </message>
    <message>
        <source>There is one already</source>
        <translation>Ya hay una</translation>
    </message>
    <message>
        <source>These do not go together. Change what was misread; keep what is so.</source>
        <translation>Esto no va junto. Cambie lo que se leyó mal; deje lo que es así.</translation>
    </message>
    <message>
        <source>Type what the plate says and leave the rest empty: what is not on it is assumed, and shown to you before anything is kept. With units or without: 460 V, 72 gpm, 7 °C.</source>
        <translation>Escriba lo que dice la placa y deje vacío lo demás: lo que no está en ella se supone, y se le muestra antes de guardar nada. Con unidades o sin ellas: 460 V, 72 gpm, 7 °C.</translation>
    </message>
    <message>
        <source>Water</source>
        <translation>Agua</translation>
    </message>
    <message>
        <source>What is assumed</source>
        <translation>Lo que se supone</translation>
    </message>
    <message>
        <source>the form</source>
        <translation>el formulario</translation>
    </message>
    <message>
        <source>{count} field{what} another look; see above.</source>
        <translation>{count} campo(s) por revisar; véalos arriba.</translation>
    </message>
    <message>
        <source>{len} {value}, {each} each, on {circuits} circuit{what}</source>
        <translation>{len} {value}, {each} cada uno, en {circuits} circuito(s)</translation>
    </message>
    <message>
        <source>{show}, leaving at {show_2}</source>
        <translation>{show}, con salida a {show_2}</translation>
    </message>
    <message>
        <source>Causes: {chance}</source>
        <translation>Causas: {chance}</translation>
    </message>
    <message>
        <source>Step</source>
        <translation>Paso</translation>
    </message>
    <message>
        <source>{title} panel</source>
        <translation>Panel {title}</translation>
    </message>
    <message>
        <source>Page {number} of {len}</source>
        <translation>Página {number} de {len}</translation>
    </message>
    <message>
        <source>Added {clock}</source>
        <translation>Agregado {clock}</translation>
    </message>
    <message>
        <source>Along the hoses</source>
        <translation>A lo largo de las mangueras</translation>
    </message>
    <message>
        <source>Anywhere</source>
        <translation>En cualquier lugar</translation>
    </message>
    <message>
        <source>At condenser and compressors</source>
        <translation>En condensador y compresores</translation>
    </message>
    <message>
        <source>At the electrical panel</source>
        <translation>En el tablero eléctrico</translation>
    </message>
    <message>
        <source>At the evaporator barrel</source>
        <translation>En el evaporador</translation>
    </message>
    <message>
        <source>At the front of the unit</source>
        <translation>En el frente de la unidad</translation>
    </message>
    <message>
        <source>At the load</source>
        <translation>En la carga</translation>
    </message>
    <message>
        <source>At the pump</source>
        <translation>En la bomba</translation>
    </message>
    <message>
        <source>At the supply</source>
        <translation>En la alimentación</translation>
    </message>
    <message>
        <source>At the water connections</source>
        <translation>En las conexiones de agua</translation>
    </message>
    <message>
        <source>Control</source>
        <translation>Control</translation>
    </message>
    <message>
        <source>Counted, sampled and looked up</source>
        <translation>Contado, muestreado y buscado</translation>
    </message>
    <message>
        <source>Currents</source>
        <translation>Corrientes</translation>
    </message>
    <message>
        <source>Electrical</source>
        <translation>Eléctrico</translation>
    </message>
    <message>
        <source>For</source>
        <translation>Para</translation>
    </message>
    <message>
        <source>How</source>
        <translation>Cómo</translation>
    </message>
    <message>
        <source>Look</source>
        <translation>Mirar</translation>
    </message>
    <message>
        <source>Measure</source>
        <translation>Medir</translation>
    </message>
    <message>
        <source>Measure this</source>
        <translation>Medir esto</translation>
    </message>
    <message>
        <source>Mend</source>
        <translation>Reparar</translation>
    </message>
    <message>
        <source>Mend this</source>
        <translation>Reparar esto</translation>
    </message>
    <message>
        <source>Plant</source>
        <translation>Instalación</translation>
    </message>
    <message>
        <source>Pressures: </source>
        <translation>Presiones: </translation>
    </message>
    <message>
        <source>Prove it</source>
        <translation>Comprobarlo</translation>
    </message>
    <message>
        <source>Prove that the fault is gone</source>
        <translation>Comprobar que la falla desapareció</translation>
    </message>
    <message>
        <source>Resistances</source>
        <translation>Resistencias</translation>
    </message>
    <message>
        <source>Seen and heard</source>
        <translation>Visto y oído</translation>
    </message>
    <message>
        <source>Temperatures: </source>
        <translation>Temperaturas: </translation>
    </message>
    <message>
        <source>The refrigerant side</source>
        <translation>El lado de refrigerante</translation>
    </message>
    <message>
        <source>The site</source>
        <translation>El sitio</translation>
    </message>
    <message>
        <source>The unit is run, and watched: it must not stop, and what was reported must be gone.</source>
        <translation>La unidad se hace funcionar y se observa: no debe pararse, y lo que se reportó debe haber desaparecido.</translation>
    </message>
    <message>
        <source>The water side</source>
        <translation>El lado de agua</translation>
    </message>
    <message>
        <source>Time</source>
        <translation>Tiempo</translation>
    </message>
    <message>
        <source>Voltages</source>
        <translation>Tensiones</translation>
    </message>
    <message>
        <source>Wait</source>
        <translation>Esperar</translation>
    </message>
    <message>
        <source>Wait {minutes}</source>
        <translation>Esperar {minutes}</translation>
    </message>
    <message>
        <source>Where</source>
        <translation>Dónde</translation>
    </message>
    <message>
        <source>With</source>
        <translation>Con</translation>
    </message>
    <message>
        <source>as long as the oil takes to warm</source>
        <translation>lo que tarde el aceite en calentarse</translation>
    </message>
    <message>
        <source>lines and shells</source>
        <translation>líneas y carcasas</translation>
    </message>
    <message>
        <source>water and other</source>
        <translation>agua y otras</translation>
    </message>
    <message>
        <source>Back to all groups</source>
        <translation>Volver a todos los grupos</translation>
    </message>
    <message>
        <source>Clear</source>
        <translation>Borrar</translation>
    </message>
    <message>
        <source>Clear the search</source>
        <translation>Borrar la búsqueda</translation>
    </message>
    <message>
        <source>Find what to measure, look at, change or mend</source>
        <translation>Busque qué medir, mirar, cambiar o reparar</translation>
    </message>
    <message>
        <source>Find: suction, strainer, valve ...</source>
        <translation>Buscar: succión, filtro, válvula ...</translation>
    </message>
    <message>
        <source>Not now</source>
        <translation>Ahora no</translation>
    </message>
    <message>
        <source>Nothing here has these words: '{wanted}'.</source>
        <translation>Nada de aquí tiene estas palabras: '{wanted}'.</translation>
    </message>
    <message>
        <source>There is nothing of this to do now.</source>
        <translation>No hay nada de esto que hacer ahora.</translation>
    </message>
    <message>
        <source>Watch for</source>
        <translation>Cuidado con</translation>
    </message>
    <message>
        <source>{words}: what can be done</source>
        <translation>{words}: lo que se puede hacer</translation>
    </message>
    <message>
        <source>Back to the list</source>
        <translation>Volver a la lista</translation>
    </message>
    <message>
        <source>Go to the unit</source>
        <translation>Ir a la unidad</translation>
    </message>
    <message>
        <source>Going there ...</source>
        <translation>En camino ...</translation>
    </message>
    <message>
        <source>PRACTICE, SIMULATED UNIT: THE CALL</source>
        <translation>PRÁCTICA, UNIDAD SIMULADA: LA LLAMADA</translation>
    </message>
    <message>
        <source>Par</source>
        <translation>Par</translation>
    </message>
    <message>
        <source>The clock runs from when you are there: what you do takes its time, and so does thinking. Pause it when you want to read. Nothing here is real, but what would be unsafe is refused, explained and counted.</source>
        <translation>El reloj corre desde que usted está ahí: lo que hace toma su tiempo, y pensar también. Páuselo cuando quiera leer. Nada de aquí es real, pero lo que sería inseguro se rechaza, se explica y se cuenta.</translation>
    </message>
    <message>
        <source>You are</source>
        <translation>Usted es</translation>
    </message>
    <message>
        <source>A call by chance: {lower}</source>
        <translation>Una llamada al azar: {lower}</translation>
    </message>
    <message>
        <source>A call that nobody has prepared</source>
        <translation>Una llamada que nadie preparó</translation>
    </message>
    <message>
        <source>Any</source>
        <translation>Cualquiera</translation>
    </message>
    <message>
        <source>Find a scenario: pump, pressure, water ...</source>
        <translation>Buscar un escenario: bomba, presión, agua ...</translation>
    </message>
    <message>
        <source>Find the fault before it costs more than it must</source>
        <translation>Encuentre la falla antes de que cueste más de lo debido</translation>
    </message>
    <message>
        <source>Level {level}</source>
        <translation>Nivel {level}</translation>
    </message>
    <message>
        <source>Level {level}: {words}</source>
        <translation>Nivel {level}: {words}</translation>
    </message>
    <message>
        <source>Next for you</source>
        <translation>La siguiente para usted</translation>
    </message>
    <message>
        <source>No scenario has these words. Clear them to see all.</source>
        <translation>Ningún escenario tiene estas palabras. Bórrelas para verlos todos.</translation>
    </message>
    <message>
        <source>Not done yet</source>
        <translation>No hecha todavía</translation>
    </message>
    <message>
        <source>PRACTICE ON A SIMULATED UNIT</source>
        <translation>PRÁCTICA EN UNA UNIDAD SIMULADA</translation>
    </message>
    <message>
        <source>Prepared calls</source>
        <translation>Llamadas preparadas</translation>
    </message>
    <message>
        <source>Reading the scenarios ...</source>
        <translation>Leyendo los escenarios ...</translation>
    </message>
    <message>
        <source>Words of a scenario, to shorten the list</source>
        <translation>Palabras de un escenario, para acortar la lista</translation>
    </message>
    <message>
        <source>Your name: results are kept under it on this computer</source>
        <translation>Su nombre: los resultados se guardan con él en esta computadora</translation>
    </message>
    <message>
        <source>Your name; results are kept under it</source>
        <translation>Su nombre; los resultados se guardan con él</translation>
    </message>
    <message>
        <source>{unit}, par {minutes}
{what}{taught}</source>
        <translation>{unit}, par {minutes}
{what}{taught}</translation>
    </message>
    <message>
        <source>, standing</source>
        <translation>, parado</translation>
    </message>
    <message>
        <source>Give up</source>
        <translation>Rendirse</translation>
    </message>
    <message>
        <source>Go on</source>
        <translation>Seguir</translation>
    </message>
    <message>
        <source>Hint</source>
        <translation>Pista</translation>
    </message>
    <message>
        <source>Hint; it costs points</source>
        <translation>Pista; cuesta puntos</translation>
    </message>
    <message>
        <source>Let the clock go on</source>
        <translation>Dejar correr el reloj</translation>
    </message>
    <message>
        <source>PRACTICE</source>
        <translation>PRÁCTICA</translation>
    </message>
    <message>
        <source>PRACTICE: {title}</source>
        <translation>PRÁCTICA: {title}</translation>
    </message>
    <message>
        <source>Pause</source>
        <translation>Pausa</translation>
    </message>
    <message>
        <source>Stop the clock</source>
        <translation>Parar el reloj</translation>
    </message>
    <message>
        <source>Time goes as on a watch</source>
        <translation>El tiempo corre como en un reloj</translation>
    </message>
    <message>
        <source>Time goes {speed} times as fast</source>
        <translation>El tiempo corre {speed} veces más rápido</translation>
    </message>
    <message>
        <source>Time since the call: {what}{what_2}</source>
        <translation>Tiempo desde la llamada: {what}{what_2}</translation>
    </message>
    <message>
        <source>{minutes} spent; par is {minutes_2}</source>
        <translation>{minutes} gastados; el par es {minutes_2}</translation>
    </message>
    <message>
        <source>That could not be worked out.</source>
        <translation>Eso no se pudo calcular.</translation>
    </message>
    <message>
        <source>The debrief could not be made.</source>
        <translation>No se pudo hacer el análisis.</translation>
    </message>
    <message>
        <source>The practice could not be begun.</source>
        <translation>No se pudo empezar la práctica.</translation>
    </message>
    <message>
        <source>At the unit</source>
        <translation>En la unidad</translation>
    </message>
    <message>
        <source>Call and log</source>
        <translation>Llamada y bitácora</translation>
    </message>
    <message>
        <source>Give up? The practice ends here, and the debrief shows what it was.</source>
        <translation>¿Rendirse? La práctica termina aquí, y el análisis muestra qué era.</translation>
    </message>
    <message>
        <source>No, go on</source>
        <translation>No, seguir</translation>
    </message>
    <message>
        <source>What to do</source>
        <translation>Qué hacer</translation>
    </message>
    <message>
        <source>Yes, give up</source>
        <translation>Sí, rendirse</translation>
    </message>
    <message>
        <source>Nothing yet.</source>
        <translation>Nada todavía.</translation>
    </message>
    <message>
        <source>THE CALL</source>
        <translation>LA LLAMADA</translation>
    </message>
    <message>
        <source>The call, and what has happened</source>
        <translation>La llamada, y lo que ha pasado</translation>
    </message>
    <message>
        <source>What has happened, the latest first</source>
        <translation>Lo que ha pasado, lo último primero</translation>
    </message>
    <message>
        <source> Weak: {weak}.</source>
        <translation> Flojo: {weak}.</translation>
    </message>
    <message>
        <source> {len} times</source>
        <translation> {len} veces</translation>
    </message>
    <message>
        <source>Not solved</source>
        <translation>No resuelto</translation>
    </message>
    <message>
        <source>Solved</source>
        <translation>Resuelto</translation>
    </message>
    <message>
        <source>{calls} call{what} so far.</source>
        <translation>{calls} llamada(s) hasta ahora.</translation>
    </message>
    <message>
        <source>{what}, played{often}: best {best} points of 100</source>
        <translation>{what}, jugado{often}: mejor {best} puntos de 100</translation>
    </message>
    <message>
        <source> It told nothing.</source>
        <translation> No dijo nada.</translation>
    </message>
    <message>
        <source> without solving it</source>
        <translation> sin resolverlo</translation>
    </message>
    <message>
        <source>; {hints} hint{what}</source>
        <translation>; {hints} pista(s)</translation>
    </message>
    <message>
        <source>Another one</source>
        <translation>Otra</translation>
    </message>
    <message>
        <source>At {on_a_watch}: {what}</source>
        <translation>A los {on_a_watch}: {what}</translation>
    </message>
    <message>
        <source>Debrief</source>
        <translation>Análisis</translation>
    </message>
    <message>
        <source>Healthy</source>
        <translation>Sana</translation>
    </message>
    <message>
        <source>Keep result as PDF</source>
        <translation>Guardar resultado como PDF</translation>
    </message>
    <message>
        <source>Keep the result sheet</source>
        <translation>Guardar la hoja de resultado</translation>
    </message>
    <message>
        <source>Mended, and not the fault</source>
        <translation>Reparado, y no era la falla</translation>
    </message>
    <message>
        <source>No gauge would show it.</source>
        <translation>Ningún instrumento lo mostraría.</translation>
    </message>
    <message>
        <source>None: good.</source>
        <translation>Ninguna: bien.</translation>
    </message>
    <message>
        <source>Nothing was read or looked at.</source>
        <translation>No se leyó ni se miró nada.</translation>
    </message>
    <message>
        <source>Nothing was taken off.</source>
        <translation>No se descontó nada.</translation>
    </message>
    <message>
        <source>Numbers of needles asked for: {asked}. It costs nothing.</source>
        <translation>Números de agujas pedidos: {asked}. No cuesta nada.</translation>
    </message>
    <message>
        <source>PRACTICE, SIMULATED UNIT</source>
        <translation>PRÁCTICA, UNIDAD SIMULADA</translation>
    </message>
    <message>
        <source>PRACTICE, SIMULATED UNIT: DEBRIEF</source>
        <translation>PRÁCTICA, UNIDAD SIMULADA: ANÁLISIS</translation>
    </message>
    <message>
        <source>Planner</source>
        <translation>Planificador</translation>
    </message>
    <message>
        <source>Point</source>
        <translation>Punto</translation>
    </message>
    <message>
        <source>Same again</source>
        <translation>Otra vez la misma</translation>
    </message>
    <message>
        <source>Tests that told nothing</source>
        <translation>Pruebas que no dijeron nada</translation>
    </message>
    <message>
        <source>The call is over</source>
        <translation>La llamada terminó</translation>
    </message>
    <message>
        <source>The planner now takes the same call, for your debrief: some seconds ...</source>
        <translation>El planificador toma ahora la misma llamada, para su análisis: unos segundos ...</translation>
    </message>
    <message>
        <source>The result sheet</source>
        <translation>La hoja de resultado</translation>
    </message>
    <message>
        <source>The unit called to run: with the fault, and healthy</source>
        <translation>La unidad llamada a funcionar: con la falla, y sana</translation>
    </message>
    <message>
        <source>Unsafe acts</source>
        <translation>Actos inseguros</translation>
    </message>
    <message>
        <source>What each reading meant</source>
        <translation>Lo que significaba cada lectura</translation>
    </message>
    <message>
        <source>What it was: {join}.</source>
        <translation>Qué era: {join}.</translation>
    </message>
    <message>
        <source>What the planner did on the same unit</source>
        <translation>Lo que hizo el planificador en la misma unidad</translation>
    </message>
    <message>
        <source>What you did</source>
        <translation>Lo que usted hizo</translation>
    </message>
    <message>
        <source>With the fault</source>
        <translation>Con la falla</translation>
    </message>
    <message>
        <source>You</source>
        <translation>Usted</translation>
    </message>
    <message>
        <source>Your path and the planner's</source>
        <translation>Su camino y el del planificador</translation>
    </message>
    <message>
        <source>{bits:.2f} bit expected, {minutes}</source>
        <translation>{bits:.2f} bit esperados, {minutes}</translation>
    </message>
    <message>
        <source>{minutes}; par is {minutes_2}; the planner took {planner}{hints}.</source>
        <translation>{minutes}; el par es {minutes_2}; el planificador tardó {planner}{hints}.</translation>
    </message>
    <message>
        <source>{score} points of 100</source>
        <translation>{score} puntos de 100</translation>
    </message>
    <message>
        <source>Compound pressure gauge</source>
        <translation>Manovacuómetro</translation>
    </message>
    <message>
        <source>Dial thermometer</source>
        <translation>Termómetro de aguja</translation>
    </message>
    <message>
        <source>Differential pressure gauge</source>
        <translation>Manómetro diferencial</translation>
    </message>
    <message>
        <source>Pressure gauge</source>
        <translation>Manómetro</translation>
    </message>
    <message>
        <source>at {what} {unit}</source>
        <translation>en {what} {unit}</translation>
    </message>
    <message>
        <source>between {what} and {what_2} {unit}</source>
        <translation>entre {what} y {what_2} {unit}</translation>
    </message>
    <message>
        <source>{what} {end} {unit}, the end of the scale</source>
        <translation>{what} {end} {unit}, el extremo de la escala</translation>
    </message>
    <message>
        <source> (as it was just before it stopped)</source>
        <translation> (como estaba justo antes de pararse)</translation>
    </message>
    <message>
        <source>UNSAFE, not done: {words}</source>
        <translation>INSEGURO, no hecho: {words}</translation>
    </message>
    <message>
        <source>{title}: read it off the needle{before}{cost}</source>
        <translation>{title}: léalo en la aguja{before}{cost}</translation>
    </message>
    <message>
        <source>AT THE UNIT NOW</source>
        <translation>EN LA UNIDAD AHORA</translation>
    </message>
    <message>
        <source>NOT DONE: UNSAFE</source>
        <translation>NO HECHO: INSEGURO</translation>
    </message>
    <message>
        <source>No instrument is fitted. Measure something: its gauge then stands here, and follows the unit.</source>
        <translation>No hay ningún instrumento puesto. Mida algo: su manómetro queda aquí y sigue a la unidad.</translation>
    </message>
    <message>
        <source>Nothing was touched. Unsafe acts so far: {count}.</source>
        <translation>No se tocó nada. Actos inseguros hasta ahora: {count}.</translation>
    </message>
    <message>
        <source>STOP: LEAVE IT, AND HAND OVER</source>
        <translation>PARE: DÉJELA, Y ENTREGUE</translation>
    </message>
    <message>
        <source>Stop work and hand over</source>
        <translation>Dejar el trabajo y entregar</translation>
    </message>
    <message>
        <source>THE UNIT, BY ITSELF</source>
        <translation>LA UNIDAD, POR SÍ SOLA</translation>
    </message>
    <message>
        <source>{what} could not be printed: {problem}. Save it as PDF and print that.</source>
        <translation>No se pudo imprimir {what}: {problem}. Guárdelo como PDF e imprima eso.</translation>
    </message>
    <message>
        <source>{what} went to the printer: {pages} page{what_2}.</source>
        <translation>{what} fue a la impresora: {pages} página(s).</translation>
    </message>
    <message>
        <source>About {time} until proved and ready to start</source>
        <translation>Unos {time} hasta quedar comprobada y lista para arrancar</translation>
    </message>
    <message>
        <source>Does not fit</source>
        <translation>No encaja</translation>
    </message>
    <message>
        <source>Left out: more than {size} causes at once, {chance} at most.</source>
        <translation>Fuera de cuenta: más de {size} causas a la vez, {chance} como máximo.</translation>
    </message>
    <message>
        <source>Numbers are decibans: 10 is ten to one, 20 a hundred to one.</source>
        <translation>Los números son decibanes: 10 es diez a uno, 20 cien a uno.</translation>
    </message>
    <message>
        <source>Remedy: {title}. {why_not}</source>
        <translation>Remedio: {title}. {why_not}</translation>
    </message>
    <message>
        <source>Show the likely ones only</source>
        <translation>Mostrar solo las probables</translation>
    </message>
    <message>
        <source>Show the other {others}</source>
        <translation>Mostrar las otras {others}</translation>
    </message>
    <message>
        <source>Spoke against it</source>
        <translation>Hablaron en contra</translation>
    </message>
    <message>
        <source>Spoke for it</source>
        <translation>Hablaron a favor</translation>
    </message>
    <message>
        <source>The fix is proved</source>
        <translation>El arreglo está comprobado</translation>
    </message>
    <message>
        <source>Try its remedy now</source>
        <translation>Probar ahora su remedio</translation>
    </message>
    <message>
        <source>Try now: {title}</source>
        <translation>Probar ahora: {title}</translation>
    </message>
    <message>
        <source>About {minutes}, for: {lower}</source>
        <translation>Unos {minutes}, para: {lower}</translation>
    </message>
    <message>
        <source>As it stood when the readings were taken.</source>
        <translation>Como estaba cuando se tomaron las lecturas.</translation>
    </message>
    <message>
        <source>Before a compressor may start</source>
        <translation>Antes de que pueda arrancar un compresor</translation>
    </message>
    <message>
        <source>I changed it, or am about to</source>
        <translation>Lo cambié, o estoy por hacerlo</translation>
    </message>
    <message>
        <source>It is not so: correct it</source>
        <translation>No es así: corregirlo</translation>
    </message>
    <message>
        <source>Others are there: correct it</source>
        <translation>Hay otras personas: corregirlo</translation>
    </message>
    <message>
        <source>The plant now</source>
        <translation>La instalación ahora</translation>
    </message>
    <message>
        <source>Who is there</source>
        <translation>Quién está ahí</translation>
    </message>
    <message>
        <source> (typed: {what})</source>
        <translation> (escrito: {what})</translation>
    </message>
    <message>
        <source>Add the note</source>
        <translation>Agregar la nota</translation>
    </message>
    <message>
        <source>Answers</source>
        <translation>Respuestas</translation>
    </message>
    <message>
        <source>Bring back</source>
        <translation>Traer de vuelta</translation>
    </message>
    <message>
        <source>Bring back: {asked}</source>
        <translation>Traer de vuelta: {asked}</translation>
    </message>
    <message>
        <source>Brought back: {asked}</source>
        <translation>Traído de vuelta: {asked}</translation>
    </message>
    <message>
        <source>Change</source>
        <translation>Cambiar</translation>
    </message>
    <message>
        <source>Change: {title}</source>
        <translation>Cambiar: {title}</translation>
    </message>
    <message>
        <source>Checks</source>
        <translation>Comprobaciones</translation>
    </message>
    <message>
        <source>Clear: {title}</source>
        <translation>Borrar: {title}</translation>
    </message>
    <message>
        <source>Cleared: {tech}</source>
        <translation>Borrado: {tech}</translation>
    </message>
    <message>
        <source>Cleared: {title}</source>
        <translation>Borrado: {title}</translation>
    </message>
    <message>
        <source>Doubtful</source>
        <translation>Dudoso</translation>
    </message>
    <message>
        <source>Left for later</source>
        <translation>Dejado para después</translation>
    </message>
    <message>
        <source>New note</source>
        <translation>Nota nueva</translation>
    </message>
    <message>
        <source>None yet.</source>
        <translation>Nada todavía.</translation>
    </message>
    <message>
        <source>Note: {what}</source>
        <translation>Nota: {what}</translation>
    </message>
    <message>
        <source>Notes</source>
        <translation>Notas</translation>
    </message>
    <message>
        <source>Record</source>
        <translation>Registro</translation>
    </message>
    <message>
        <source>Remedies tried</source>
        <translation>Remedios intentados</translation>
    </message>
    <message>
        <source>Safeties</source>
        <translation>Protecciones</translation>
    </message>
    <message>
        <source>The proof did not hold.</source>
        <translation>La prueba no se cumplió.</translation>
    </message>
    <message>
        <source>The proof held.</source>
        <translation>La prueba se cumplió.</translation>
    </message>
    <message>
        <source>Write a note</source>
        <translation>Escribir una nota</translation>
    </message>
    <message>
        <source>, then </source>
        <translation>, luego </translation>
    </message>
    <message>
        <source>. First: </source>
        <translation>. Primero: </translation>
    </message>
    <message>
        <source>A remedy has been carried out: nothing counts before its proof.</source>
        <translation>Se hizo un remedio: nada cuenta antes de su prueba.</translation>
    </message>
    <message>
        <source>Minutes include bringing the plant into the state it needs. Bits: how much it tells.</source>
        <translation>Los minutos incluyen llevar la instalación al estado que necesita. Bits: cuánto dice.</translation>
    </message>
    <message>
        <source>Or choose another</source>
        <translation>O elija otro</translation>
    </message>
    <message>
        <source>Remedy: {minutes}, fix in {minutes_2}</source>
        <translation>Remedio: {minutes}, arreglo en {minutes_2}</translation>
    </message>
    <message>
        <source>Show fewer</source>
        <translation>Mostrar menos</translation>
    </message>
    <message>
        <source>The case is closed.</source>
        <translation>El caso está cerrado.</translation>
    </message>
    <message>
        <source>Why</source>
        <translation>Por qué</translation>
    </message>
    <message>
        <source>Why this step</source>
        <translation>Por qué este paso</translation>
    </message>
    <message>
        <source>{minutes}, {bits:.2f} bit, fix in {minutes_2}</source>
        <translation>{minutes}, {bits:.2f} bit, arreglo en {minutes_2}</translation>
    </message>
    <message>
        <source>{refrigerant}, {show}, {count} compressor{what}</source>
        <translation>{refrigerant}, {show}, {count} compresor(es)</translation>
    </message>
    <message>
        <source>After it: {after}.</source>
        <translation>Después: {after}.</translation>
    </message>
    <message>
        <source>Done: {title}</source>
        <translation>Hecho: {title}</translation>
    </message>
    <message>
        <source>I have done this</source>
        <translation>Ya lo hice</translation>
    </message>
    <message>
        <source>This costs time: {resets}</source>
        <translation>Esto cuesta tiempo: {resets}</translation>
    </message>
    <message>
        <source>As it is written down now</source>
        <translation>Como está anotado ahora</translation>
    </message>
    <message>
        <source>Changed: {asked} {title}</source>
        <translation>Cambiado: {asked} {title}</translation>
    </message>
    <message>
        <source>Changed: {reading_words}</source>
        <translation>Cambiado: {reading_words}</translation>
    </message>
    <message>
        <source>Leave it as it is</source>
        <translation>Dejarlo como está</translation>
    </message>
    <message>
        <source>This changes the record only. Write down what has been seen or read already.</source>
        <translation>Esto cambia solo el registro. Anote lo que ya se vio o se leyó.</translation>
    </message>
    <message>
        <source>Case opened again</source>
        <translation>Caso abierto otra vez</translation>
    </message>
    <message>
        <source>Cause</source>
        <translation>Causa</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Nota</translation>
    </message>
    <message>
        <source>Open it again</source>
        <translation>Abrirlo otra vez</translation>
    </message>
    <message>
        <source>Proof</source>
        <translation>Prueba</translation>
    </message>
    <message>
        <source>Remedy</source>
        <translation>Remedio</translation>
    </message>
    <message>
        <source>Do something else first</source>
        <translation>Hacer antes otra cosa</translation>
    </message>
    <message>
        <source>File or QR code</source>
        <translation>Archivo o código QR</translation>
    </message>
    <message>
        <source>Hand over and close</source>
        <translation>Entregar y cerrar</translation>
    </message>
    <message>
        <source>Hand over as a file or QR code</source>
        <translation>Entregar como archivo o código QR</translation>
    </message>
    <message>
        <source>It has been made safe: answer anew</source>
        <translation>Ya está en seguridad: responder de nuevo</translation>
    </message>
    <message>
        <source>None</source>
        <translation>Ninguno</translation>
    </message>
    <message>
        <source>Nothing more is asked or tried until someone qualified has made it safe and says so.</source>
        <translation>No se pregunta ni se intenta nada más hasta que alguien calificado la haya puesto en seguridad y lo diga.</translation>
    </message>
    <message>
        <source>Nothing that is known here</source>
        <translation>Nada que se conozca aquí</translation>
    </message>
    <message>
        <source>Parts</source>
        <translation>Repuestos</translation>
    </message>
    <message>
        <source>Someone qualified is here now</source>
        <translation>Alguien calificado ya está aquí</translation>
    </message>
    <message>
        <source>Still possible</source>
        <translation>Todavía posible</translation>
    </message>
    <message>
        <source>Tools</source>
        <translation>Herramientas</translation>
    </message>
    <message>
        <source>Until then make the unit safe: nobody starts it, and it cannot start by itself.</source>
        <translation>Mientras tanto ponga la unidad en seguridad: nadie la arranca, y no puede arrancar sola.</translation>
    </message>
    <message>
        <source>Usual wait</source>
        <translation>Espera habitual</translation>
    </message>
    <message>
        <source>about {minutes} until someone is on site</source>
        <translation>unos {minutes} hasta que alguien esté en el sitio</translation>
    </message>
    <message>
        <source>Did the proof hold?</source>
        <translation>¿Se cumplió la prueba?</translation>
    </message>
    <message>
        <source>It could not be measured</source>
        <translation>No se pudo medir</translation>
    </message>
    <message>
        <source>No: the fault is still there</source>
        <translation>No: la falla sigue ahí</translation>
    </message>
    <message>
        <source>Not measured: judged by what was seen and heard.</source>
        <translation>No medido: juzgado por lo que se vio y se oyó.</translation>
    </message>
    <message>
        <source>Proof of '{title}' {words}. {remark}</source>
        <translation>Prueba de '{title}' {words}. {remark}</translation>
    </message>
    <message>
        <source>Remedy done</source>
        <translation>Remedio hecho</translation>
    </message>
    <message>
        <source>See what these say</source>
        <translation>Ver qué dicen estas</translation>
    </message>
    <message>
        <source>Take the reading first, or tick that it could not be measured.</source>
        <translation>Tome primero la lectura, o marque que no se pudo medir.</translation>
    </message>
    <message>
        <source>What was seen and heard has to do instead; the record says so.</source>
        <translation>Debe bastar lo que se vio y se oyó; el registro lo dice.</translation>
    </message>
    <message>
        <source>Yes: the fault is gone</source>
        <translation>Sí: la falla desapareció</translation>
    </message>
    <message>
        <source>did not hold</source>
        <translation>no se cumplió</translation>
    </message>
    <message>
        <source>'{title}' cannot be made from these readings: {reason}. Change a reading, or choose 'Could not measure'.</source>
        <translation>'{title}' no sale de estas lecturas: {reason}. Cambie una lectura, o elija 'No se pudo medir'.</translation>
    </message>
    <message>
        <source>Fetch</source>
        <translation>Traer</translation>
    </message>
    <message>
        <source>Left for later: {asked}</source>
        <translation>Dejado para después: {asked}</translation>
    </message>
    <message>
        <source>Show it in the plant</source>
        <translation>Mostrarlo en la instalación</translation>
    </message>
    <message>
        <source>Still wanted for '{title}': {wanted}.</source>
        <translation>Todavía falta para '{title}': {wanted}.</translation>
    </message>
    <message>
        <source>These readings are written down already.</source>
        <translation>Estas lecturas ya están anotadas.</translation>
    </message>
    <message>
        <source>Done: go on to its proof</source>
        <translation>Hecho: seguir con su prueba</translation>
    </message>
    <message>
        <source>How it acts</source>
        <translation>Cómo actúa</translation>
    </message>
    <message>
        <source>Licence</source>
        <translation>Licencia</translation>
    </message>
    <message>
        <source>Remedy carried out: {title}</source>
        <translation>Remedio hecho: {title}</translation>
    </message>
    <message>
        <source>{minutes}, and {minutes_2} for the proof</source>
        <translation>{minutes}, y {minutes_2} para la prueba</translation>
    </message>
    <message>
        <source>The plant is: </source>
        <translation>La instalación está: </translation>
    </message>
    <message>
        <source>Tick this first: the answers below open then.</source>
        <translation>Marque esto primero: entonces se abren las respuestas de abajo.</translation>
    </message>
    <message>
        <source>; moves the result by {show}</source>
        <translation>; mueve el resultado en {show}</translation>
    </message>
    <message>
        <source>= as expected</source>
        <translation>= como se espera</translation>
    </message>
    <message>
        <source>Deviation</source>
        <translation>Desviación</translation>
    </message>
    <message>
        <source>Expected</source>
        <translation>Esperado</translation>
    </message>
    <message>
        <source>Formula: {formula}</source>
        <translation>Fórmula: {formula}</translation>
    </message>
    <message>
        <source>Hide the arithmetic</source>
        <translation>Ocultar el cálculo</translation>
    </message>
    <message>
        <source>Measured</source>
        <translation>Medido</translation>
    </message>
    <message>
        <source>Note: {remark}</source>
        <translation>Nota: {remark}</translation>
    </message>
    <message>
        <source>Show the arithmetic: {title}</source>
        <translation>Mostrar el cálculo: {title}</translation>
    </message>
    <message>
        <source>Source: {source}</source>
        <translation>Fuente: {source}</translation>
    </message>
    <message>
        <source>Standard uncertainty of it</source>
        <translation>Su incertidumbre estándar</translation>
    </message>
    <message>
        <source>What went in</source>
        <translation>Lo que entró</translation>
    </message>
    <message>
        <source>{show}: it is {abs:.1f} of them off, and beyond {COVERAGE:.0f} is called</source>
        <translation>{show}: está a {abs:.1f} de ellas, y más allá de {COVERAGE:.0f} se llama</translation>
    </message>
    <message>
        <source>{value}, standard uncertainty {u}; {origin}{effect}</source>
        <translation>{value}, incertidumbre estándar {u}; {origin}{effect}</translation>
    </message>
    <message>
        <source>▲ high</source>
        <translation>▲ alto</translation>
    </message>
    <message>
        <source>▼ low</source>
        <translation>▼ bajo</translation>
    </message>
    <message>
        <source>Hide reasons</source>
        <translation>Ocultar razones</translation>
    </message>
    <message>
        <source>Opens what spoke for and against</source>
        <translation>Abre lo que habló a favor y en contra</translation>
    </message>
    <message>
        <source>Reasons</source>
        <translation>Razones</translation>
    </message>
    <message>
        <source>under 1 %</source>
        <translation>menos de 1 %</translation>
    </message>
    <message>
        <source>Call again</source>
        <translation>Llamar otra vez</translation>
    </message>
    <message>
        <source>Call {clock_words}</source>
        <translation>Llamada {clock_words}</translation>
    </message>
    <message>
        <source>Caller's name</source>
        <translation>Nombre de quien llama</translation>
    </message>
    <message>
        <source>Caller's telephone number</source>
        <translation>Teléfono de quien llama</translation>
    </message>
    <message>
        <source>Hang up</source>
        <translation>Colgar</translation>
    </message>
    <message>
        <source>Hang up; its time goes into the record</source>
        <translation>Colgar; su tiempo va al registro</translation>
    </message>
    <message>
        <source>No call</source>
        <translation>Sin llamada</translation>
    </message>
    <message>
        <source>Who calls could not be kept.</source>
        <translation>No se pudo guardar quién llama.</translation>
    </message>
    <message>
        <source>Who calls could not be read.</source>
        <translation>No se pudo leer quién llama.</translation>
    </message>
    <message>
        <source>OVER</source>
        <translation>SOBRE</translation>
    </message>
    <message>
        <source>UNDER</source>
        <translation>BAJO</translation>
    </message>
    <message>
        <source>nothing to read</source>
        <translation>nada que leer</translation>
    </message>
    <message>
        <source>{title}: one division is {division:g} {unit}</source>
        <translation>{title}: una división es {division:g} {unit}</translation>
    </message>
    <message>
        <source>{words} SCALE</source>
        <translation>{words} ESCALA</translation>
    </message>
    <message>
        <source>It is {number}.</source>
        <translation>Es {number}.</translation>
    </message>
    <message>
        <source>It was {number}. Nothing to read here now.</source>
        <translation>Era {number}. Nada que leer aquí ahora.</translation>
    </message>
    <message>
        <source>Nothing to read here now; this was last.</source>
        <translation>Nada que leer aquí ahora; esto fue lo último.</translation>
    </message>
    <message>
        <source>Number</source>
        <translation>Número</translation>
    </message>
    <message>
        <source>Number: {title}</source>
        <translation>Número: {title}</translation>
    </message>
    <message>
        <source>Take off</source>
        <translation>Quitar</translation>
    </message>
    <message>
        <source>Take off: {title}</source>
        <translation>Quitar: {title}</translation>
    </message>
    <message>
        <source>Drawing: {title}</source>
        <translation>Dibujo: {title}</translation>
    </message>
    <message>
        <source>1 min before</source>
        <translation>1 min antes</translation>
    </message>
    <message>
        <source>15 min before</source>
        <translation>15 min antes</translation>
    </message>
    <message>
        <source>30 s before</source>
        <translation>30 s antes</translation>
    </message>
    <message>
        <source>5 min before</source>
        <translation>5 min antes</translation>
    </message>
    <message>
        <source>As remembered for this logger.</source>
        <translation>Como se recuerda para este registrador.</translation>
    </message>
    <message>
        <source>Curves of the log; each is drawn from its least to its most</source>
        <translation>Curvas del registro; cada una se dibuja de su mínimo a su máximo</translation>
    </message>
    <message>
        <source>Leave the file</source>
        <translation>Dejar el archivo</translation>
    </message>
    <message>
        <source>No column is a measuring point yet.</source>
        <translation>Ninguna columna es todavía un punto de medición.</translation>
    </message>
    <message>
        <source>Say what each column is.</source>
        <translation>Diga qué es cada columna.</translation>
    </message>
    <message>
        <source>The columns could not be remembered: {strerror}.</source>
        <translation>No se pudieron recordar las columnas: {strerror}.</translation>
    </message>
    <message>
        <source>Trip earlier</source>
        <translation>Disparo antes</translation>
    </message>
    <message>
        <source>Trip later</source>
        <translation>Disparo después</translation>
    </message>
    <message>
        <source>Use these readings</source>
        <translation>Usar estas lecturas</translation>
    </message>
    <message>
        <source>Which time counts</source>
        <translation>Qué momento cuenta</translation>
    </message>
    <message>
        <source>minutes since the log began</source>
        <translation>minutos desde el comienzo del registro</translation>
    </message>
    <message>
        <source>not wanted</source>
        <translation>no se quiere</translation>
    </message>
    <message>
        <source>{name}: {len:,} rows. {words}</source>
        <translation>{name}: {len:,} filas. {words}</translation>
    </message>
    <message>
        <source>{title}: {low:.4g} to {high:.4g} {unit}</source>
        <translation>{title}: {low:.4g} a {high:.4g} {unit}</translation>
    </message>
    <message>
        <source>Problem: </source>
        <translation>Problema: </translation>
    </message>
    <message>
        <source>Put away</source>
        <translation>Guardar mensaje</translation>
    </message>
    <message>
        <source>In the record.</source>
        <translation>En el registro.</translation>
    </message>
    <message>
        <source>Into the record</source>
        <translation>Al registro</translation>
    </message>
    <message>
        <source>Kept.</source>
        <translation>Guardado.</translation>
    </message>
    <message>
        <source>NOT kept: put it into the record.</source>
        <translation>NO se guarda: páselo al registro.</translation>
    </message>
    <message>
        <source>Not kept until it is in the record.</source>
        <translation>No se guarda hasta que esté en el registro.</translation>
    </message>
    <message>
        <source>Notes, kept as you type</source>
        <translation>Notas, guardadas mientras escribe</translation>
    </message>
    <message>
        <source>Notes: kept as you type. Ctrl+Enter puts them into the record.</source>
        <translation>Notas: se guardan mientras escribe. Ctrl+Intro las pasa al registro.</translation>
    </message>
    <message>
        <source>Put the notes into the record (Ctrl+Enter)</source>
        <translation>Pasar las notas al registro (Ctrl+Intro)</translation>
    </message>
    <message>
        <source>What is being typed could not be kept.</source>
        <translation>No se puede guardar lo que se escribe.</translation>
    </message>
    <message>
        <source>What was being typed before could not be read.</source>
        <translation>No se pudo leer lo que se escribía antes.</translation>
    </message>
    <message>
        <source>No picture</source>
        <translation>Sin imagen</translation>
    </message>
    <message>
        <source>{title}, in {unit}</source>
        <translation>{title}, en {unit}</translation>
    </message>
    <message>
        <source>QR code of the case, to be scanned by the other telephone or tablet</source>
        <translation>Código QR del caso, para que lo lea el otro teléfono o tableta</translation>
    </message>
    <message>
        <source>Change it: {title}</source>
        <translation>Cambiarlo: {title}</translation>
    </message>
    <message>
        <source>Keep it</source>
        <translation>Confirmarlo</translation>
    </message>
    <message>
        <source>Keep it: {title}</source>
        <translation>Confirmarlo: {title}</translation>
    </message>
    <message>
        <source>Not understood: {problem}</source>
        <translation>No se entiende: {problem}</translation>
    </message>
    <message>
        <source>This cannot be</source>
        <translation>Esto no puede ser</translation>
    </message>
    <message>
        <source>plain numbers</source>
        <translation>números solos</translation>
    </message>
    <message>
        <source>{title}, in {what}</source>
        <translation>{title}, en {what}</translation>
    </message>
    <message>
        <source>Take these readings</source>
        <translation>Tomar estas lecturas</translation>
    </message>
    <message>
        <source>Take this reading</source>
        <translation>Tomar esta lectura</translation>
    </message>
    <message>
        <source>Is this right? {join}</source>
        <translation>¿Está bien esto? {join}</translation>
    </message>
    <message>
        <source>Measuring point</source>
        <translation>Punto de medición</translation>
    </message>
    <message>
        <source>Reading</source>
        <translation>Lectura</translation>
    </message>
    <message>
        <source>This cannot be: {join}</source>
        <translation>Esto no puede ser: {join}</translation>
    </message>
    <message>
        <source>Understood, or what is wrong</source>
        <translation>Entendido, o qué está mal</translation>
    </message>
    <message>
        <source>in the case: {had}</source>
        <translation>en el caso: {had}</translation>
    </message>
    <message>
        <source>, waits for: {mark}</source>
        <translation>, espera: {mark}</translation>
    </message>
    <message>
        <source>Case {place}: {title}, {what}{waits}</source>
        <translation>Caso {place}: {title}, {what}{waits}</translation>
    </message>
    <message>
        <source>Close the tab of {title}; its case stays</source>
        <translation>Cerrar la pestaña de {title}; su caso queda</translation>
    </message>
    <message>
        <source>New case in a tab of its own</source>
        <translation>Caso nuevo en su propia pestaña</translation>
    </message>
    <message>
        <source>no unit yet</source>
        <translation>sin unidad todavía</translation>
    </message>
    <message>
        <source>Time line. {said}; par is {par:.0f} minutes. Every act is listed below.</source>
        <translation>Línea de tiempo. {said}; el par es {par:.0f} minutos. Cada acto está en la lista de abajo.</translation>
    </message>
    <message>
        <source>mended or proved</source>
        <translation>reparado o comprobado</translation>
    </message>
    <message>
        <source>plant changed</source>
        <translation>instalación cambiada</translation>
    </message>
    <message>
        <source>read or seen</source>
        <translation>leído o visto</translation>
    </message>
    <message>
        <source>the unit by itself</source>
        <translation>la unidad por sí sola</translation>
    </message>
    <message>
        <source>unsafe, refused</source>
        <translation>inseguro, rechazado</translation>
    </message>
    <message>
        <source>{title}: {minutes:.0f} minutes</source>
        <translation>{title}: {minutes:.0f} minutos</translation>
    </message>
    <message>
        <source>A FIRST CASE</source>
        <translation>UN PRIMER CASO</translation>
    </message>
    <message>
        <source>Do it as in the story</source>
        <translation>Hacerlo como en la historia</translation>
    </message>
    <message>
        <source>FaultDoc asks what tells most for the minutes it takes. In this story they find:</source>
        <translation>FaultDoc pregunta lo que más dice por los minutos que lleva. En esta historia encuentran:</translation>
    </message>
    <message>
        <source>I will do it myself</source>
        <translation>Lo haré yo mismo</translation>
    </message>
    <message>
        <source>Nothing counts as mended until it is proved by running. In this story:</source>
        <translation>Nada cuenta como reparado hasta que se prueba en marcha. En esta historia:</translation>
    </message>
    <message>
        <source>Now mending is worth more than asking. In this story they do it.</source>
        <translation>Ahora reparar vale más que preguntar. En esta historia lo hacen.</translation>
    </message>
    <message>
        <source>That was it: cause, fix, proof and restart, all written down. Close the case for its report, or begin one of your own.</source>
        <translation>Eso fue todo: causa, reparación, prueba y arranque, todo anotado. Cierre el caso para ver su informe, o empiece uno propio.</translation>
    </message>
    <message>
        <source>The next step needs the plant in another state, and never comes before it is.</source>
        <translation>El paso siguiente necesita la planta en otro estado, y nunca viene antes de que lo esté.</translation>
    </message>
    <message>
        <source>The story ends here. Undo, or begin a case of your own.</source>
        <translation>La historia termina aquí. Deshaga, o empiece un caso propio.</translation>
    </message>
    <message>
        <source>'{title}' is not in the case book: closing its tab loses it. Save it as a file first (Ctrl+S), or close the tab once more to let it go.</source>
        <translation>'{title}' no está en el libro de casos: cerrar su pestaña lo pierde. Guárdelo primero como archivo (Ctrl+S), o cierre la pestaña otra vez para dejarlo ir.</translation>
    </message>
    <message>
        <source>Case files (*.yaml)</source>
        <translation>Archivos de caso (*.yaml)</translation>
    </message>
    <message>
        <source>Cases and hand-overs (*.yaml *.yml *.txt)</source>
        <translation>Casos y entregas (*.yaml *.yml *.txt)</translation>
    </message>
    <message>
        <source>Close this tab; the case stays</source>
        <translation>Cerrar esta pestaña; el caso queda</translation>
    </message>
    <message>
        <source>Decide how the call ends</source>
        <translation>Decidir cómo termina la llamada</translation>
    </message>
    <message>
        <source>Fault tree</source>
        <translation>Árbol de fallas</translation>
    </message>
    <message>
        <source>Fleet</source>
        <translation>Flota</translation>
    </message>
    <message>
        <source>Hand over ...</source>
        <translation>Entregar ...</translation>
    </message>
    <message>
        <source>Leave FaultDoc</source>
        <translation>Salir de FaultDoc</translation>
    </message>
    <message>
        <source>Looks: sunlight, night, size of letters</source>
        <translation>Aspecto: sol, noche, letras, idioma</translation>
    </message>
    <message>
        <source>Many readings at once</source>
        <translation>Muchas lecturas a la vez</translation>
    </message>
    <message>
        <source>Menu</source>
        <translation>Menú</translation>
    </message>
    <message>
        <source>Open a case file or hand-over ...</source>
        <translation>Abrir un archivo de caso o entrega ...</translation>
    </message>
    <message>
        <source>People on it changed</source>
        <translation>Personas cambiadas</translation>
    </message>
    <message>
        <source>Pictures of plant and readings</source>
        <translation>Imágenes y lecturas</translation>
    </message>
    <message>
        <source>Plant and people</source>
        <translation>Instalación y personas</translation>
    </message>
    <message>
        <source>Plant corrected to what is so</source>
        <translation>Instalación corregida a lo que es</translation>
    </message>
    <message>
        <source>Practice: nothing here is real</source>
        <translation>Práctica: nada de aquí es real</translation>
    </message>
    <message>
        <source>Save the case</source>
        <translation>Guardar el caso</translation>
    </message>
    <message>
        <source>Save the case as ...</source>
        <translation>Guardar el caso como ...</translation>
    </message>
    <message>
        <source>Stop (F1)</source>
        <translation>Pare (F1)</translation>
    </message>
    <message>
        <source>Stop: danger (F1)</source>
        <translation>Pare: peligro (F1)</translation>
    </message>
    <message>
        <source>Take over from scanned codes</source>
        <translation>Recibir códigos leídos</translation>
    </message>
    <message>
        <source>The first case could not be opened.</source>
        <translation>No se pudo abrir el primer caso.</translation>
    </message>
    <message>
        <source>Units: US</source>
        <translation>Unidades: EE. UU.</translation>
    </message>
    <message>
        <source>Units: {value}</source>
        <translation>Unidades: {value}</translation>
    </message>
    <message>
        <source>Units: {value}. Press to switch to {what}</source>
        <translation>Unidades: {value}. Pulse para cambiar a {what}</translation>
    </message>
    <message>
        <source>Air entering the condenser over the outdoor air, {named}</source>
        <translation>Aire que entra al condensador sobre el aire exterior, {named}</translation>
    </message>
    <message>
        <source>Condenser fans standing still, {named}</source>
        <translation>Ventiladores del condensador parados, {named}</translation>
    </message>
    <message>
        <source>Rise of the air through the condenser, {named}</source>
        <translation>Aumento del aire a través del condensador, {named}</translation>
    </message>
    <message>
        <source>Share of the condenser's air that is recirculated, {named}</source>
        <translation>Parte del aire del condensador que recircula, {named}</translation>
    </message>
    <message>
        <source>as expected</source>
        <translation>como se espera</translation>
    </message>
    <message>
        <source>at least</source>
        <translation>al menos</translation>
    </message>
    <message>
        <source>at most</source>
        <translation>como máximo</translation>
    </message>
    <message>
        <source>expected</source>
        <translation>esperado</translation>
    </message>
    <message>
        <source>high</source>
        <translation>alto</translation>
    </message>
    <message>
        <source>low</source>
        <translation>bajo</translation>
    </message>
    <message>
        <source>{far:.1f} standard uncertainties: </source>
        <translation>{far:.1f} incertidumbres estándar: </translation>
    </message>
    <message>
        <source>{title}: {measured}, {compared} {expected}; off by {off}, {how_far}{verdict}.</source>
        <translation>{title}: {measured}, {compared} {expected}; diferencia {off}, {how_far}{verdict}.</translation>
    </message>
    <message>
        <source>Control voltage</source>
        <translation>Tensión de control</translation>
    </message>
    <message>
        <source>Control voltage against the supply voltage</source>
        <translation>Tensión de control contra la de alimentación</translation>
    </message>
    <message>
        <source>Control voltage lost under load</source>
        <translation>Tensión de control perdida bajo carga</translation>
    </message>
    <message>
        <source>Load of the control transformer over its rating</source>
        <translation>Carga del transformador de control sobre su capacidad</translation>
    </message>
    <message>
        <source>Negative sequence of the supply voltage</source>
        <translation>Secuencia negativa de la tensión de alimentación</translation>
    </message>
    <message>
        <source>Phase sequence against a supply whose sequence is known</source>
        <translation>Secuencia de fases contra una alimentación de secuencia conocida</translation>
    </message>
    <message>
        <source>Pump's current at its working point</source>
        <translation>Corriente de la bomba en su punto de trabajo</translation>
    </message>
    <message>
        <source>Smallest over largest of the three supply voltages</source>
        <translation>La menor sobre la mayor de las tres tensiones de alimentación</translation>
    </message>
    <message>
        <source>Supply frequency</source>
        <translation>Frecuencia de alimentación</translation>
    </message>
    <message>
        <source>Supply voltage</source>
        <translation>Tensión de alimentación</translation>
    </message>
    <message>
        <source>Unbalance of the pump's currents</source>
        <translation>Desequilibrio de las corrientes de la bomba</translation>
    </message>
    <message>
        <source>Unbalance of the supply voltage</source>
        <translation>Desequilibrio de la tensión de alimentación</translation>
    </message>
    <message>
        <source>Feeder's ampacity against the unit's minimum</source>
        <translation>Ampacidad del alimentador contra la mínima de la unidad</translation>
    </message>
    <message>
        <source>Frequency lost from no load to load</source>
        <translation>Frecuencia perdida de vacío a carga</translation>
    </message>
    <message>
        <source>Fuse or breaker against the largest the plate allows</source>
        <translation>Fusible o interruptor contra el mayor que permite la placa</translation>
    </message>
    <message>
        <source>Fuse or breaker against the unit's minimum circuit ampacity</source>
        <translation>Fusible o interruptor contra la ampacidad mínima de la unidad</translation>
    </message>
    <message>
        <source>Generator's voltage dip while the largest compressor starts, reckoned</source>
        <translation>Caída de tensión del generador al arrancar el compresor mayor, calculada</translation>
    </message>
    <message>
        <source>Lowest frequency while a compressor starts</source>
        <translation>Frecuencia más baja mientras arranca un compresor</translation>
    </message>
    <message>
        <source>Lowest voltage while a compressor starts</source>
        <translation>Tensión más baja mientras arranca un compresor</translation>
    </message>
    <message>
        <source>Maximum fuse or breaker on the plate against the unit's motors</source>
        <translation>Fusible o interruptor máximo de la placa contra los motores de la unidad</translation>
    </message>
    <message>
        <source>Minimum circuit ampacity on the plate against the unit's motors</source>
        <translation>Ampacidad mínima de la placa contra los motores de la unidad</translation>
    </message>
    <message>
        <source>Unit's current over the generator's rating</source>
        <translation>Corriente de la unidad sobre la capacidad del generador</translation>
    </message>
    <message>
        <source>Voltage at the unit while its largest compressor starts, as the feeder lets it</source>
        <translation>Tensión en la unidad al arrancar su compresor mayor, según el alimentador</translation>
    </message>
    <message>
        <source>Voltage dip while the largest compressor starts on a generator</source>
        <translation>Caída de tensión al arrancar el compresor mayor con un generador</translation>
    </message>
    <message>
        <source>Voltage drop of the feeder, running</source>
        <translation>Caída de tensión del alimentador, en marcha</translation>
    </message>
    <message>
        <source>Voltage lost between the feeder's two ends</source>
        <translation>Tensión perdida entre los dos extremos del alimentador</translation>
    </message>
    <message>
        <source>Coldest air to come against what the standing mix survives</source>
        <translation>Aire más frío por venir contra lo que aguanta la mezcla quieta</translation>
    </message>
    <message>
        <source>Evaporating temperature of {of_circuit} above the water's freezing point</source>
        <translation>Temperatura de evaporación de {of_circuit} sobre el punto de congelación del agua</translation>
    </message>
    <message>
        <source>Glycol in the water against what is usual</source>
        <translation>Glicol en el agua contra lo habitual</translation>
    </message>
    <message>
        <source>Glycol in the water, from its specific gravity</source>
        <translation>Glicol en el agua, por su densidad relativa</translation>
    </message>
    <message>
        <source>Leaving water above its freezing point</source>
        <translation>Agua de salida sobre su punto de congelación</translation>
    </message>
    <message>
        <source>Leaving water against the coldest this mix allows</source>
        <translation>Agua de salida contra la más fría que permite esta mezcla</translation>
    </message>
    <message>
        <source>Hose laid against the longest run at minimum flow</source>
        <translation>Manguera tendida contra el tendido más largo al caudal mínimo</translation>
    </message>
    <message>
        <source>Share of the water that goes past the load</source>
        <translation>Parte del agua que no pasa por la carga</translation>
    </message>
    <message>
        <source>Shortest time from start to start on this loop</source>
        <translation>Tiempo más corto de arranque a arranque en este circuito</translation>
    </message>
    <message>
        <source>Time to cool the loop</source>
        <translation>Tiempo para enfriar el circuito</translation>
    </message>
    <message>
        <source>Water flow against the most its hose should carry</source>
        <translation>Caudal de agua contra lo máximo que debe llevar su manguera</translation>
    </message>
    <message>
        <source>Water in the loop against short cycling</source>
        <translation>Agua en el circuito contra ciclos cortos</translation>
    </message>
    <message>
        <source>Current of compressor {number}</source>
        <translation>Corriente del compresor {number}</translation>
    </message>
    <message>
        <source>Current of condenser fan {number}</source>
        <translation>Corriente del ventilador de condensador {number}</translation>
    </message>
    <message>
        <source>Current of {title} against what the supply's unbalance leaves it</source>
        <translation>Corriente de {title} contra lo que le deja el desequilibrio de la alimentación</translation>
    </message>
    <message>
        <source>Current unbalance of {title} that stays with the supply, less that of the motor</source>
        <translation>Desequilibrio de corriente de {title} que queda con la alimentación, menos el del motor</translation>
    </message>
    <message>
        <source>Insulation resistance of {title} at 40 °C</source>
        <translation>Resistencia de aislamiento de {title} a 40 °C</translation>
    </message>
    <message>
        <source>Largest voltage across a closed pole of the contactor of {title}</source>
        <translation>Mayor tensión en un polo cerrado del contactor de {title}</translation>
    </message>
    <message>
        <source>Smallest over largest of the currents of {title}</source>
        <translation>La menor sobre la mayor de las corrientes de {title}</translation>
    </message>
    <message>
        <source>Unbalance of the currents of {title}</source>
        <translation>Desequilibrio de las corrientes de {title}</translation>
    </message>
    <message>
        <source>Unbalance of the winding resistances of {title}</source>
        <translation>Desequilibrio de las resistencias de devanado de {title}</translation>
    </message>
    <message>
        <source>Winding resistance of compressor {number}</source>
        <translation>Resistencia de devanado del compresor {number}</translation>
    </message>
    <message>
        <source>Oil temperature at rest over the outdoor air, compressor {number}</source>
        <translation>Temperatura del aceite en reposo sobre el aire exterior, compresor {number}</translation>
    </message>
    <message>
        <source>Oil temperature over saturated suction, compressor {number} on {of_circuit}</source>
        <translation>Temperatura del aceite sobre la succión saturada, compresor {number} en {of_circuit}</translation>
    </message>
    <message>
        <source>Time till the sump is warm enough, compressor {number}</source>
        <translation>Tiempo hasta que el cárter esté tibio, compresor {number}</translation>
    </message>
    <message>
        <source>Load of the pump's motor at the flow measured</source>
        <translation>Carga del motor de la bomba al caudal medido</translation>
    </message>
    <message>
        <source>Pump's pressure rise against a shut valve, if it ran backwards</source>
        <translation>Aumento de presión de la bomba contra válvula cerrada, si girara al revés</translation>
    </message>
    <message>
        <source>Charge, from subcooling, superheat and approach together, {named}</source>
        <translation>Carga, por subenfriamiento, recalentamiento y acercamiento juntos, {named}</translation>
    </message>
    <message>
        <source>Compression ratio, {named}</source>
        <translation>Relación de compresión, {named}</translation>
    </message>
    <message>
        <source>Condenser's split over the air, {named}</source>
        <translation>Diferencia del condensador sobre el aire, {named}</translation>
    </message>
    <message>
        <source>Discharge temperature, {named}</source>
        <translation>Temperatura de descarga, {named}</translation>
    </message>
    <message>
        <source>Evaporator's approach, {named}</source>
        <translation>Acercamiento del evaporador, {named}</translation>
    </message>
    <message>
        <source>Feed, from subcooling, superheat and approach together, {named}</source>
        <translation>Alimentación de líquido, por subenfriamiento, recalentamiento y acercamiento juntos, {named}</translation>
    </message>
    <message>
        <source>Resting pressure against saturation at the air's temperature, {named}</source>
        <translation>Presión en reposo contra la saturación a la temperatura del aire, {named}</translation>
    </message>
    <message>
        <source>Subcooling by the discharge gauge, {named}</source>
        <translation>Subenfriamiento por el manómetro de descarga, {named}</translation>
    </message>
    <message>
        <source>circuit {letter}</source>
        <translation>circuito {letter}</translation>
    </message>
    <message>
        <source>{upper}{title} against its {side} trip</source>
        <translation>{upper}{title} contra su disparo {side}</translation>
    </message>
    <message>
        <source>Starts in the last hour, compressor {number}</source>
        <translation>Arranques en la última hora, compresor {number}</translation>
    </message>
    <message>
        <source>Time energised for the oil to warm up</source>
        <translation>Tiempo con energía para que se caliente el aceite</translation>
    </message>
    <message>
        <source>Time since the last stop, compressor {number}</source>
        <translation>Tiempo desde la última parada, compresor {number}</translation>
    </message>
    <message>
        <source>Barrel's pressure drop against the flow switch's setting</source>
        <translation>Caída del evaporador contra el ajuste del interruptor de flujo</translation>
    </message>
    <message>
        <source>Barrel's pressure drop at the flow measured</source>
        <translation>Caída de presión del evaporador al caudal medido</translation>
    </message>
    <message>
        <source>Heat taken out of the water</source>
        <translation>Calor sacado del agua</translation>
    </message>
    <message>
        <source>Pressure drop across the strainer</source>
        <translation>Caída de presión en el filtro de agua</translation>
    </message>
    <message>
        <source>Pump's pressure rise against a shut valve</source>
        <translation>Aumento de presión de la bomba contra válvula cerrada</translation>
    </message>
    <message>
        <source>Pump's pressure rise against curve and loop</source>
        <translation>Aumento de presión de la bomba contra curva y circuito</translation>
    </message>
    <message>
        <source>Standing pressure for the height of the loop</source>
        <translation>Presión en reposo para la altura del circuito</translation>
    </message>
    <message>
        <source>Strainer's loss coefficient over clean, as a natural logarithm</source>
        <translation>Coeficiente de pérdida del filtro sobre limpio, en logaritmo natural</translation>
    </message>
    <message>
        <source>Suction head available to the pump</source>
        <translation>Altura de succión disponible para la bomba</translation>
    </message>
    <message>
        <source>Swing of the barrel's pressure drop</source>
        <translation>Oscilación de la caída del evaporador</translation>
    </message>
    <message>
        <source>Water flow off the barrel against flow off the pump's curve</source>
        <translation>Caudal por el evaporador contra caudal por la curva de la bomba</translation>
    </message>
    <message>
        <source>Water flow, read off the barrel's pressure drop</source>
        <translation>Caudal de agua, leído de la caída del evaporador</translation>
    </message>
    <message>
        <source>What the loop takes at minimum flow, against what the pump has</source>
        <translation>Lo que consume el circuito al caudal mínimo, contra lo que tiene la bomba</translation>
    </message>
    <message>
        <source> Likeliest is still: {title} ({share:.0f} %); remedy: {title_2}.</source>
        <translation> Lo más probable sigue siendo: {title} ({share:.0f} %); remedio: {title_2}.</translation>
    </message>
    <message>
        <source> Make the unit safe and hand the case over with this record.</source>
        <translation> Ponga la unidad en seguridad y entregue el caso con este registro.</translation>
    </message>
    <message>
        <source>Going on is expected to take {expected_minutes:.0f} min, and {give_up:.0f} min without this unit.</source>
        <translation>Se espera que seguir tome {expected_minutes:.0f} min, y {give_up:.0f} min sin esta unidad.</translation>
    </message>
    <message>
        <source>Hand over to someone qualified ({replace}): {title}</source>
        <translation>Entregue a alguien calificado ({replace}): {title}</translation>
    </message>
    <message>
        <source>No cause known here is left to try.</source>
        <translation>No queda por probar ninguna causa conocida aquí.</translation>
    </message>
    <message>
        <source>Nobody here may bring the plant into the state needed for {toward}. Hand over to someone who may.</source>
        <translation>Nadie aquí puede llevar la instalación al estado que hace falta para {toward}. Entregue a alguien que pueda.</translation>
    </message>
    <message>
        <source>The fix is proved and the unit is back in service: close the case.</source>
        <translation>El arreglo está comprobado y la unidad está de vuelta en servicio: cierre el caso.</translation>
    </message>
    <message>
        <source>the proof of: {title}</source>
        <translation>la prueba de: {title}</translation>
    </message>
    <message>
        <source>the question: {what}</source>
        <translation>la pregunta: {what}</translation>
    </message>
    <message>
        <source>the remedy: {title}</source>
        <translation>el remedio: {title}</translation>
    </message>
    <message>
        <source>the restart</source>
        <translation>el nuevo arranque</translation>
    </message>
    <message>
        <source>rests on the same reading as '{shared}': counted once</source>
        <translation>se apoya en la misma lectura que '{shared}': contado una vez</translation>
    </message>
    <message>
        <source>the number read there says it better: counted once</source>
        <translation>el número leído ahí lo dice mejor: contado una vez</translation>
    </message>
    <message>
        <source>the same check as in '{seen}': counted once</source>
        <translation>la misma comprobación que en '{seen}': contada una vez</translation>
    </message>
    <message>
        <source>1 to {number} against</source>
        <translation>1 a {number} en contra</translation>
    </message>
    <message>
        <source>An answer says that people can come to harm here and now. That comes before any cause.</source>
        <translation>Una respuesta dice que la gente puede salir herida aquí y ahora. Eso va antes que cualquier causa.</translation>
    </message>
    <message>
        <source>First: </source>
        <translation>Primero: </translation>
    </message>
    <message>
        <source>Going on is expected to take longer than doing without this unit; this tells most for its minutes ({bits:.2f} bit in {min}) and may change that.</source>
        <translation>Se espera que seguir tome más que prescindir de esta unidad; esto es lo que más dice por sus minutos ({bits:.2f} bit en {min}) y puede cambiarlo.</translation>
    </message>
    <message>
        <source>How often it is the cause of this symptom</source>
        <translation>Con qué frecuencia es la causa de este síntoma</translation>
    </message>
    <message>
        <source>It is asked first: its answer may stop the work.</source>
        <translation>Se pregunta primero: su respuesta puede detener el trabajo.</translation>
    </message>
    <message>
        <source>It takes {min} and is expected to bring a proved fix {min_2} nearer than repairing without asking; it tells {bits:.2f} bit about the cause.</source>
        <translation>Toma {min} y se espera que acerque un arreglo comprobado en {min_2} respecto de reparar sin preguntar; dice {bits:.2f} bit sobre la causa.</translation>
    </message>
    <message>
        <source>It takes {min} with its proof and is the fix with a chance of {probability:.0%}; no question saves more than it costs.</source>
        <translation>Toma {min} con su prueba y es el arreglo con una probabilidad de {probability:.0%}; ninguna pregunta ahorra más de lo que cuesta.</translation>
    </message>
    <message>
        <source>Nothing known here is left that is worth asking or trying.</source>
        <translation>No queda nada conocido aquí que valga la pena preguntar o probar.</translation>
    </message>
    <message>
        <source>Rather than '{option_in_words}' ({min}, {bits:.2f} bit): that way is expected to end {min_2} {what}.</source>
        <translation>En vez de '{option_in_words}' ({min}, {bits:.2f} bit): por ahí se espera terminar {min_2} {what}.</translation>
    </message>
    <message>
        <source>Remedy tried: {title}. The proof {what}.</source>
        <translation>Remedio intentado: {title}. La prueba {what}.</translation>
    </message>
    <message>
        <source>This fits no cause here (1 in {what:,.0f}): {evidence_in_words} Recheck it.</source>
        <translation>Esto no encaja con ninguna causa de aquí (1 en {what:,.0f}): {evidence_in_words} Revíselo.</translation>
    </message>
    <message>
        <source>a deviation above {edges:+.2g}</source>
        <translation>una desviación mayor que {edges:+.2g}</translation>
    </message>
    <message>
        <source>a deviation below {edges:+.2g}</source>
        <translation>una desviación menor que {edges:+.2g}</translation>
    </message>
    <message>
        <source>a deviation from {edges:+.2g} to {edges_2:+.2g}</source>
        <translation>una desviación de {edges:+.2g} a {edges_2:+.2g}</translation>
    </message>
    <message>
        <source>any deviation</source>
        <translation>cualquier desviación</translation>
    </message>
    <message>
        <source>hardly moves it</source>
        <translation>casi no la mueve</translation>
    </message>
    <message>
        <source>later</source>
        <translation>después</translation>
    </message>
    <message>
        <source>sooner</source>
        <translation>antes</translation>
    </message>
    <message>
        <source>starts at {odds_in_words}</source>
        <translation>empieza en {odds_in_words}</translation>
    </message>
    <message>
        <source>very strongly</source>
        <translation>muy fuertemente</translation>
    </message>
    <message>
        <source>{len} checks that share readings: {join}.</source>
        <translation>{len} comprobaciones que comparten lecturas: {join}.</translation>
    </message>
    <message>
        <source>{number} to 1 on</source>
        <translation>{number} a 1 a favor</translation>
    </message>
    <message>
        <source>{tech} '{answer}' ({chance:.0%} likely) would put '{title}' first.</source>
        <translation>{tech} '{answer}' ({chance:.0%} probable) pondría primero '{title}'.</translation>
    </message>
    <message>
        <source>      {meaning}{nothing} ({bits:.2f} bits expected, {minutes:.0f} min)</source>
        <translation>      {meaning}{nothing} ({bits:.2f} bits esperados, {minutes:.0f} min)</translation>
    </message>
    <message>
        <source>  No gauge would show it.</source>
        <translation>  Ningún instrumento lo mostraría.</translation>
    </message>
    <message>
        <source>  No unsafe act.</source>
        <translation>  Ningún acto inseguro.</translation>
    </message>
    <message>
        <source>  None.</source>
        <translation>  Ninguno.</translation>
    </message>
    <message>
        <source>  Nothing was done.</source>
        <translation>  No se hizo nada.</translation>
    </message>
    <message>
        <source>  Nothing was read.</source>
        <translation>  No se leyó nada.</translation>
    </message>
    <message>
        <source>  Refused: {what} {what_2}</source>
        <translation>  Rechazado: {what} {what_2}</translation>
    </message>
    <message>
        <source>  {title}: {at_fault}; healthy {healthy}</source>
        <translation>  {title}: {at_fault}; sana {healthy}</translation>
    </message>
    <message>
        <source>  {what} ({minutes:.0f} min)</source>
        <translation>  {what} ({minutes:.0f} min)</translation>
    </message>
    <message>
        <source> TOLD NOTHING.</source>
        <translation> NO DIJO NADA.</translation>
    </message>
    <message>
        <source>AT FAULT AND AT HEALTH, THE UNIT CALLED TO RUN</source>
        <translation>CON FALLA Y SANA, LA UNIDAD LLAMADA A FUNCIONAR</translation>
    </message>
    <message>
        <source>Hints: {hints}</source>
        <translation>Pistas: {hints}</translation>
    </message>
    <message>
        <source>It changed little by itself.</source>
        <translation>Por sí sola cambió poco.</translation>
    </message>
    <message>
        <source>It makes this likelier: {title} ({what:.0f} to {what_2:.0f} %).</source>
        <translation>Hace más probable esto: {title} (de {what:.0f} a {what_2:.0f} %).</translation>
    </message>
    <message>
        <source>It speaks against: {title}.</source>
        <translation>Habla en contra de: {title}.</translation>
    </message>
    <message>
        <source>It teaches: {teaches}</source>
        <translation>Enseña: {teaches}</translation>
    </message>
    <message>
        <source>No fix was proved</source>
        <translation>No se comprobó ningún arreglo</translation>
    </message>
    <message>
        <source>RESULT SHEET</source>
        <translation>HOJA DE RESULTADO</translation>
    </message>
    <message>
        <source>Scenario: {title} ({id}), level {level}: {LEVELS}</source>
        <translation>Escenario: {title} ({id}), nivel {level}: {LEVELS}</translation>
    </message>
    <message>
        <source>Score: {score} of 100</source>
        <translation>Puntaje: {score} de 100</translation>
    </message>
    <message>
        <source>Solved: the fix was proved</source>
        <translation>Resuelto: el arreglo se comprobó</translation>
    </message>
    <message>
        <source>Stopped and handed over, as it had to be</source>
        <translation>Detenido y entregado, como debía ser</translation>
    </message>
    <message>
        <source>THE PLANNER'S PATH ON THE SAME UNIT</source>
        <translation>EL CAMINO DEL PLANIFICADOR EN LA MISMA UNIDAD</translation>
    </message>
    <message>
        <source>Tests that told nothing: {nothing}</source>
        <translation>Pruebas que no dijeron nada: {nothing}</translation>
    </message>
    <message>
        <source>Took {minutes:.0f} min where {due:.0f} min would do</source>
        <translation>Tomó {minutes:.0f} min donde bastaban {due:.0f} min</translation>
    </message>
    <message>
        <source>Trainee: {trainee}</source>
        <translation>Aprendiz: {trainee}</translation>
    </message>
    <message>
        <source>Unsafe acts: {unsafe}</source>
        <translation>Actos inseguros: {unsafe}</translation>
    </message>
    <message>
        <source>WHAT EACH READING MEANT</source>
        <translation>LO QUE SIGNIFICABA CADA LECTURA</translation>
    </message>
    <message>
        <source>WRONG FIXES</source>
        <translation>ARREGLOS EQUIVOCADOS</translation>
    </message>
    <message>
        <source>What it was: {join}</source>
        <translation>Qué era: {join}</translation>
    </message>
    <message>
        <source>Wrong fixes: {wrong}</source>
        <translation>Arreglos equivocados: {wrong}</translation>
    </message>
    <message>
        <source>YOUR PATH</source>
        <translation>SU CAMINO</translation>
    </message>
    <message>
        <source>{ending}, in {minutes:.0f} min. Par is {par:.0f} min; the planner took {planner_minutes:.0f} min on the same unit.</source>
        <translation>{ending}, en {minutes:.0f} min. El par es {par:.0f} min; el planificador tardó {planner_minutes:.0f} min en la misma unidad.</translation>
    </message>
    <message>
        <source>calls not solved</source>
        <translation>llamadas no resueltas</translation>
    </message>
    <message>
        <source>hints asked for</source>
        <translation>pistas pedidas</translation>
    </message>
    <message>
        <source>tests that told nothing</source>
        <translation>pruebas que no dijeron nada</translation>
    </message>
    <message>
        <source>unsafe acts</source>
        <translation>actos inseguros</translation>
    </message>
    <message>
        <source>wrong fixes</source>
        <translation>arreglos equivocados</translation>
    </message>
    <message>
        <source>{replace} ({score:.0f} of 100)</source>
        <translation>{replace} ({score:.0f} de 100)</translation>
    </message>
    <message>
        <source>'faultdoc tree {tree} --cut-sets' lists what does</source>
        <translation>'faultdoc tree {tree} --cut-sets' dice cuáles lo hacen</translation>
    </message>
    <message>
        <source>'{id}', which is no cause of '{id_2}'</source>
        <translation>'{id}', que no es causa de '{id_2}'</translation>
    </message>
    <message>
        <source>'{id}', which is not simulated</source>
        <translation>'{id}', que no se simula</translation>
    </message>
    <message>
        <source>'{stem}', as the file is named</source>
        <translation>'{stem}', como se llama el archivo</translation>
    </message>
    <message>
        <source>'{tree}', which is for units with {listed}</source>
        <translation>'{tree}', que es para unidades con {listed}</translation>
    </message>
    <message>
        <source>A call came in. They say: {symptom}</source>
        <translation>Entró una llamada. Dicen: {symptom}</translation>
    </message>
    <message>
        <source>A call that nobody has prepared.</source>
        <translation>Una llamada que nadie preparó.</translation>
    </message>
    <message>
        <source>Call from {caller}. The unit is a {title}. They say: {symptom} It is {air} outside. {pressed}</source>
        <translation>Llamada de {caller}. La unidad es una {title}. Dicen: {symptom} Afuera hay {air}. {pressed}</translation>
    </message>
    <message>
        <source>Call {seed}: {title}</source>
        <translation>Llamada {seed}: {title}</translation>
    </message>
    <message>
        <source>Set by hand: {tree}</source>
        <translation>Puesto a mano: {tree}</translation>
    </message>
    <message>
        <source>Their load holds for an hour or two.</source>
        <translation>Su carga aguanta una hora o dos.</translation>
    </message>
    <message>
        <source>There is no second unit.</source>
        <translation>No hay una segunda unidad.</translation>
    </message>
    <message>
        <source>They have people waiting.</source>
        <translation>Tienen gente esperando.</translation>
    </message>
    <message>
        <source>They want it back before the shift ends.</source>
        <translation>La quieren de vuelta antes de que termine el turno.</translation>
    </message>
    <message>
        <source>What the instructor has chosen.</source>
        <translation>Lo que eligió el instructor.</translation>
    </message>
    <message>
        <source>a possible one</source>
        <translation>uno posible</translation>
    </message>
    <message>
        <source>a process plant's operator</source>
        <translation>un operador de una planta de proceso</translation>
    </message>
    <message>
        <source>a simulated cause</source>
        <translation>una causa simulada</translation>
    </message>
    <message>
        <source>a state that cannot be</source>
        <translation>un estado que no puede ser</translation>
    </message>
    <message>
        <source>a tree for this unit</source>
        <translation>un árbol para esta unidad</translation>
    </message>
    <message>
        <source>below that nobody would notice it</source>
        <translation>por debajo de eso nadie lo notaría</translation>
    </message>
    <message>
        <source>causes that do, none of them to spare</source>
        <translation>causas que lo produzcan, sin ninguna de sobra</translation>
    </message>
    <message>
        <source>compressors run only with the pump, the pump only with power; write what can be</source>
        <translation>los compresores solo funcionan con la bomba, la bomba solo con energía; escriba lo que pueda ser</translation>
    </message>
    <message>
        <source>name another unit or tree</source>
        <translation>nombre otra unidad u otro árbol</translation>
    </message>
    <message>
        <source>one fault that looks like others</source>
        <translation>una falla que se parece a otras</translation>
    </message>
    <message>
        <source>one of {listed}</source>
        <translation>una de {listed}</translation>
    </message>
    <message>
        <source>one plain fault</source>
        <translation>una falla sencilla</translation>
    </message>
    <message>
        <source>rename one</source>
        <translation>cambie uno de los nombres</translation>
    </message>
    <message>
        <source>take a cause that the simulator knows</source>
        <translation>tome una causa que el simulador conozca</translation>
    </message>
    <message>
        <source>the hall's caretaker</source>
        <translation>el encargado del salón</translation>
    </message>
    <message>
        <source>the plant's engineer</source>
        <translation>el ingeniero de la planta</translation>
    </message>
    <message>
        <source>the site's foreman</source>
        <translation>el capataz del sitio</translation>
    </message>
    <message>
        <source>the unknown fault tree '{tree}'</source>
        <translation>el árbol de fallas desconocido '{tree}'</translation>
    </message>
    <message>
        <source>wrong instruments, faults that come and go, two faults at once</source>
        <translation>instrumentos equivocados, fallas que van y vienen, dos fallas a la vez</translation>
    </message>
    <message>
        <source>{listed}, which together do not bring '{tree}' about on this unit</source>
        <translation>{listed}, que juntas no producen '{tree}' en esta unidad</translation>
    </message>
    <message>
        <source>{mildest:g} to 1</source>
        <translation>de {mildest:g} a 1</translation>
    </message>
    <message>
        <source> It leads to {toward}</source>
        <translation> Lleva a {toward}</translation>
    </message>
    <message>
        <source> of circuit {upper}</source>
        <translation> del circuito {upper}</translation>
    </message>
    <message>
        <source>A lock-out is shown: high pressure.</source>
        <translation>Se muestra un bloqueo: alta presión.</translation>
    </message>
    <message>
        <source>A lock-out is shown: low pressure.</source>
        <translation>Se muestra un bloqueo: baja presión.</translation>
    </message>
    <message>
        <source>A lock-out is shown: water too cold.</source>
        <translation>Se muestra un bloqueo: agua demasiado fría.</translation>
    </message>
    <message>
        <source>A protective device ({replace}) has stopped it and has been reset as often as it may be before its cause is found.</source>
        <translation>Un dispositivo de protección ({replace}) la paró y ya se rearmó todas las veces permitidas antes de encontrar su causa.</translation>
    </message>
    <message>
        <source>An answer has ended the work: {stop}</source>
        <translation>Una respuesta terminó el trabajo: {stop}</translation>
    </message>
    <message>
        <source>An electrical panel is open: shut it first.</source>
        <translation>Hay un tablero eléctrico abierto: ciérrelo primero.</translation>
    </message>
    <message>
        <source>Bring the plant into another state first ({wanted}).</source>
        <translation>Lleve primero la instalación a otro estado ({wanted}).</translation>
    </message>
    <message>
        <source>Compressor's motor protection</source>
        <translation>Protección del motor del compresor</translation>
    </message>
    <message>
        <source>Compressors are running: stop them first.</source>
        <translation>Los compresores están en marcha: párelos primero.</translation>
    </message>
    <message>
        <source>Compressors have started.</source>
        <translation>Arrancaron compresores.</translation>
    </message>
    <message>
        <source>Compressors without water flow freeze the evaporator: start the pump first.</source>
        <translation>Los compresores sin caudal de agua congelan el evaporador: arranque primero la bomba.</translation>
    </message>
    <message>
        <source>Flow proving switch</source>
        <translation>Interruptor de flujo</translation>
    </message>
    <message>
        <source>Handed over unsolved.</source>
        <translation>Entregado sin resolver.</translation>
    </message>
    <message>
        <source>Has acted: {safety}{at}; {what}.</source>
        <translation>Ha actuado: {safety}{at}; {what}.</translation>
    </message>
    <message>
        <source>Held by: {safety}.</source>
        <translation>Detenida por: {safety}.</translation>
    </message>
    <message>
        <source>Held to a part of its capacity.</source>
        <translation>Limitada a una parte de su capacidad.</translation>
    </message>
    <message>
        <source>I would do this next: {what}</source>
        <translation>Yo haría ahora esto: {what}</translation>
    </message>
    <message>
        <source>I would think of the {system} side first. Ask again for the next step.</source>
        <translation>Yo pensaría primero en el lado {system}. Pregunte otra vez por el paso siguiente.</translation>
    </message>
    <message>
        <source>It does not start. {hold_in_words}</source>
        <translation>No arranca. {hold_in_words}</translation>
    </message>
    <message>
        <source>It does not stay on.</source>
        <translation>No se queda en marcha.</translation>
    </message>
    <message>
        <source>It is not called to run, or is held by its control.</source>
        <translation>No está llamada a funcionar, o la detiene su control.</translation>
    </message>
    <message>
        <source>It ran without a stop, but what was reported is still there: {scenario_symptom}</source>
        <translation>Funcionó sin pararse, pero lo que se reportó sigue ahí: {scenario_symptom}</translation>
    </message>
    <message>
        <source>It stopped: {safety}. The proof does not hold.</source>
        <translation>Se paró: {safety}. La prueba no se cumple.</translation>
    </message>
    <message>
        <source>Its circuits are switched off.</source>
        <translation>Sus circuitos están apagados.</translation>
    </message>
    <message>
        <source>No compressor runs.</source>
        <translation>No funciona ningún compresor.</translation>
    </message>
    <message>
        <source>Not possible now.</source>
        <translation>Ahora no es posible.</translation>
    </message>
    <message>
        <source>Nothing is lit: no power.</source>
        <translation>Nada encendido: sin energía.</translation>
    </message>
    <message>
        <source>Read: {title}</source>
        <translation>Leer: {title}</translation>
    </message>
    <message>
        <source>Run the unit to prove the fix</source>
        <translation>Hacer funcionar la unidad para comprobar el arreglo</translation>
    </message>
    <message>
        <source>Set point: {show}.</source>
        <translation>Punto de ajuste: {show}.</translation>
    </message>
    <message>
        <source>Shown leaving water: {show}.</source>
        <translation>Agua de salida mostrada: {show}.</translation>
    </message>
    <message>
        <source>Starting one stage after another.</source>
        <translation>Arranca una etapa tras otra.</translation>
    </message>
    <message>
        <source>Stopped; nobody has started it since.</source>
        <translation>Parada; nadie la ha arrancado desde entonces.</translation>
    </message>
    <message>
        <source>Supply monitor</source>
        <translation>Monitor de alimentación</translation>
    </message>
    <message>
        <source>The call is over.</source>
        <translation>La llamada terminó.</translation>
    </message>
    <message>
        <source>The compressors have stopped.</source>
        <translation>Los compresores se pararon.</translation>
    </message>
    <message>
        <source>The controls are dark, though there is power.</source>
        <translation>Los controles están apagados, aunque hay energía.</translation>
    </message>
    <message>
        <source>The disconnect is locked out; nothing is lit.</source>
        <translation>El desconectador está bloqueado; nada está encendido.</translation>
    </message>
    <message>
        <source>The oil is cold: a start on cold oil can wreck a compressor.</source>
        <translation>El aceite está frío: arrancar con el aceite frío puede destruir un compresor.</translation>
    </message>
    <message>
        <source>The power was away meanwhile.</source>
        <translation>La energía se fue mientras tanto.</translation>
    </message>
    <message>
        <source>The pump has started.</source>
        <translation>La bomba arrancó.</translation>
    </message>
    <message>
        <source>The pump has stopped.</source>
        <translation>La bomba se paró.</translation>
    </message>
    <message>
        <source>The pump is called; no water is heard to flow.</source>
        <translation>La bomba está llamada; no se oye correr agua.</translation>
    </message>
    <message>
        <source>The pump is off.</source>
        <translation>La bomba está apagada.</translation>
    </message>
    <message>
        <source>The pump is running: stop it first.</source>
        <translation>La bomba está en marcha: párela primero.</translation>
    </message>
    <message>
        <source>The pump runs.</source>
        <translation>La bomba funciona.</translation>
    </message>
    <message>
        <source>The refrigerant circuit is open: close it first.</source>
        <translation>El circuito de refrigerante está abierto: ciérrelo primero.</translation>
    </message>
    <message>
        <source>The refrigerant is under pressure: it is recovered first, by someone licensed.</source>
        <translation>El refrigerante está a presión: primero se recupera, por alguien con licencia.</translation>
    </message>
    <message>
        <source>The supply is on: this is done on a unit locked out and proved dead only.</source>
        <translation>La alimentación está conectada: esto se hace solo con la unidad bloqueada y comprobada sin tensión.</translation>
    </message>
    <message>
        <source>The unit does not run. {hold_in_words} The proof does not hold.</source>
        <translation>La unidad no funciona. {hold_in_words} La prueba no se cumple.</translation>
    </message>
    <message>
        <source>The unit has no power: its oil heaters are cold.</source>
        <translation>La unidad no tiene energía: sus calefactores de aceite están fríos.</translation>
    </message>
    <message>
        <source>The unit ran for {PROOF_MINUTES:.0f} min without a stop: the fix is proved.</source>
        <translation>La unidad funcionó {PROOF_MINUTES:.0f} min sin pararse: el arreglo está comprobado.</translation>
    </message>
    <message>
        <source>The water is cold enough for it.</source>
        <translation>El agua ya está lo bastante fría.</translation>
    </message>
    <message>
        <source>The water side is let down: fill and vent it first, or the pump runs dry.</source>
        <translation>El lado de agua está sin presión: llénelo y púrguelo primero, o la bomba funciona en seco.</translation>
    </message>
    <message>
        <source>The water side is under pressure: shut it off and let it down first.</source>
        <translation>El lado de agua está a presión: ciérrelo y baje la presión primero.</translation>
    </message>
    <message>
        <source>There is nothing to read there now.</source>
        <translation>No hay nada que leer ahí ahora.</translation>
    </message>
    <message>
        <source>This device has been reset as often as it may be before its cause is found.</source>
        <translation>Este dispositivo ya se rearmó todas las veces permitidas antes de encontrar su causa.</translation>
    </message>
    <message>
        <source>Waited {minutes:g} min.</source>
        <translation>Esperó {minutes:g} min.</translation>
    </message>
    <message>
        <source>Waits for its start timer.</source>
        <translation>Espera su temporizador de arranque.</translation>
    </message>
    <message>
        <source>Waits for the oil to warm.</source>
        <translation>Espera a que el aceite se caliente.</translation>
    </message>
    <message>
        <source>Waits for the remote contact.</source>
        <translation>Espera el contacto remoto.</translation>
    </message>
    <message>
        <source>Waits for water flow.</source>
        <translation>Espera el caudal de agua.</translation>
    </message>
    <message>
        <source>Waits: its starts of this hour are used up.</source>
        <translation>Espera: ya usó sus arranques de esta hora.</translation>
    </message>
    <message>
        <source>Work stopped and handed over, as it must be.</source>
        <translation>Trabajo detenido y entregado, como debe ser.</translation>
    </message>
    <message>
        <source>You are not the person for it. Needs: {lower}.</source>
        <translation>Usted no es la persona para esto. Hace falta: {lower}.</translation>
    </message>
    <message>
        <source>stays till reset</source>
        <translation>queda hasta rearmarlo</translation>
    </message>
    <message>
        <source>will let go by itself</source>
        <translation>se soltará solo</translation>
    </message>
    <message>
        <source>{safety}{where} has acted{often}.</source>
        <translation>{safety}{where} ha actuado{often}.</translation>
    </message>
    <message>
        <source>{stage} are called.</source>
        <translation>Están llamados {stage}.</translation>
    </message>
    <message>
        <source>{title}: done.</source>
        <translation>{title}: hecho.</translation>
    </message>
    <message>
        <source>{title}: it is so already.</source>
        <translation>{title}: ya es así.</translation>
    </message>
    <message>
        <source>{title}: not done.</source>
        <translation>{title}: no hecho.</translation>
    </message>
    <message>
        <source>{title}: not possible now.</source>
        <translation>{title}: ahora no es posible.</translation>
    </message>
    <message>
        <source>{title}: there was nothing to read.</source>
        <translation>{title}: no había nada que leer.</translation>
    </message>
    <message>
        <source>{turning} of {len} compressors run.</source>
        <translation>Funcionan {turning} de {len} compresores.</translation>
    </message>
    <message>
        <source>. Dotted: a remedy and its proof</source>
        <translation>. Punteado: un remedio y su prueba</translation>
    </message>
    <message>
        <source>Likely causes</source>
        <translation>Causas probables</translation>
    </message>
    <message>
        <source>Steps as numbered in the table; 0 is the symptom alone</source>
        <translation>Pasos con los números de la tabla; 0 es solo el síntoma</translation>
    </message>
    <message>
        <source>'{strange}' is no cause of its symptoms</source>
        <translation>'{strange}' no es causa de sus síntomas</translation>
    </message>
    <message>
        <source>its symptom is in no tree for this unit</source>
        <translation>su síntoma no está en ningún árbol para esta unidad</translation>
    </message>
    <message>
        <source>no cause was proved</source>
        <translation>no se comprobó ninguna causa</translation>
    </message>
    <message>
        <source>not closed</source>
        <translation>sin cerrar</translation>
    </message>
    <message>
        <source>on a demo unit</source>
        <translation>en una unidad de demostración</translation>
    </message>
    <message>
        <source>the data sheet of '{unit}' is gone or cannot be read</source>
        <translation>la hoja de datos de '{unit}' no está o no se puede leer</translation>
    </message>
    <message>
        <source>How we know that it is right, in the technician's words: {proof}</source>
        <translation>Cómo sabemos que está bien, en palabras del técnico: {proof}</translation>
    </message>
    <message>
        <source>How we know that it is right: {proof}</source>
        <translation>Cómo sabemos que está bien: {proof}</translation>
    </message>
    <message>
        <source>If the same thing shows again, call us and do not keep resetting the unit; open nothing.</source>
        <translation>Si vuelve a pasar lo mismo, llámenos y no siga rearmando la unidad; no abra nada.</translation>
    </message>
    <message>
        <source>Please watch for {one}.</source>
        <translation>Por favor esté atento a {one}.</translation>
    </message>
    <message>
        <source>Somebody else will go on with the work, and has this record.</source>
        <translation>Otra persona seguirá con el trabajo, y tiene este registro.</translation>
    </message>
    <message>
        <source>The reason is not proved yet.</source>
        <translation>El motivo no está comprobado todavía.</translation>
    </message>
    <message>
        <source>The reason is not proved yet; {sure}: {wrong}</source>
        <translation>El motivo no está comprobado todavía; {sure}: {wrong}</translation>
    </message>
    <message>
        <source>The reason was not found.</source>
        <translation>No se encontró el motivo.</translation>
    </message>
    <message>
        <source>The technician closed the work as done; a reading that proves it was not written down.</source>
        <translation>El técnico cerró el trabajo como terminado; no se anotó una lectura que lo compruebe.</translation>
    </message>
    <message>
        <source>The unit is not running; please do not start it before somebody qualified says so.</source>
        <translation>La unidad no está funcionando; por favor no la arranque antes de que lo diga alguien calificado.</translation>
    </message>
    <message>
        <source>The unit is switched off and locked out for safety; please leave the lock where it is.</source>
        <translation>La unidad está apagada y bloqueada por seguridad; por favor deje el candado donde está.</translation>
    </message>
    <message>
        <source>The unit was made safe, and the work goes on later.</source>
        <translation>La unidad quedó en seguridad, y el trabajo sigue después.</translation>
    </message>
    <message>
        <source>This was done first, and it was not the reason: {done}</source>
        <translation>Esto se hizo primero, y no era el motivo: {done}</translation>
    </message>
    <message>
        <source>We were called to the unit {title}</source>
        <translation>Nos llamaron a la unidad {title}</translation>
    </message>
    <message>
        <source>What was done: {done}</source>
        <translation>Lo que se hizo: {done}</translation>
    </message>
    <message>
        <source>What was seen: {seen}</source>
        <translation>Lo que se vio: {seen}</translation>
    </message>
    <message>
        <source>What we found: {wrong}</source>
        <translation>Lo que encontramos: {wrong}</translation>
    </message>
    <message>
        <source>When we left this record the unit was running.</source>
        <translation>Cuando dejamos este registro la unidad funcionaba.</translation>
    </message>
    <message>
        <source>Whether that was the reason must still be tested.</source>
        <translation>Falta comprobar si ese era el motivo.</translation>
    </message>
    <message>
        <source>a breaker that opens, a burnt smell, lights that dim as the unit starts</source>
        <translation>un interruptor que se abre, olor a quemado, luces que bajan cuando arranca la unidad</translation>
    </message>
    <message>
        <source>a unit that starts and stops often, or a temperature on its display that cannot be true</source>
        <translation>una unidad que arranca y para a menudo, o una temperatura en su pantalla que no puede ser cierta</translation>
    </message>
    <message>
        <source>after the work we checked {listed} again, and found what a sound unit should show.</source>
        <translation>después del trabajo volvimos a revisar {listed}, y encontramos lo que una unidad sana debe mostrar.</translation>
    </message>
    <message>
        <source>anything put near the unit, or changed on the pipes, the hoses or the power that feed it</source>
        <translation>cualquier cosa puesta cerca de la unidad, o cambiada en los tubos, las mangueras o la energía que la alimentan</translation>
    </message>
    <message>
        <source>its electrical insulation</source>
        <translation>su aislamiento eléctrico</translation>
    </message>
    <message>
        <source>its times</source>
        <translation>sus tiempos</translation>
    </message>
    <message>
        <source>most likely</source>
        <translation>lo más probable</translation>
    </message>
    <message>
        <source>one possibility among others</source>
        <translation>una posibilidad entre otras</translation>
    </message>
    <message>
        <source>the electrical supply</source>
        <translation>la alimentación eléctrica</translation>
    </message>
    <message>
        <source>the flow of water</source>
        <translation>el caudal del agua</translation>
    </message>
    <message>
        <source>the pressures in the cooling circuit</source>
        <translation>las presiones del circuito de enfriamiento</translation>
    </message>
    <message>
        <source>the strength of the antifreeze</source>
        <translation>la concentración del anticongelante</translation>
    </message>
    <message>
        <source>the water's pressure</source>
        <translation>la presión del agua</translation>
    </message>
    <message>
        <source>water on the ground near the unit or its hoses, a pump that sounds different, and valves that somebody has turned</source>
        <translation>agua en el suelo cerca de la unidad o sus mangueras, una bomba que suena distinto y válvulas que alguien movió</translation>
    </message>
    <message>
        <source>water that gets slowly warmer, ice or oil on the pipes, a hiss or a sharp smell</source>
        <translation>agua que poco a poco se calienta, hielo o aceite en los tubos, un silbido o un olor fuerte</translation>
    </message>
    <message>
        <source>what its motors draw</source>
        <translation>lo que consumen sus motores</translation>
    </message>
    <message>
        <source>what the unit shows and does</source>
        <translation>lo que la unidad muestra y hace</translation>
    </message>
    <message>
        <source>{join} and {last}</source>
        <translation>{join} y {last}</translation>
    </message>
    <message>
        <source>90 days old</source>
        <translation>Con 90 días</translation>
    </message>
    <message>
        <source>Came back</source>
        <translation>Volvieron</translation>
    </message>
    <message>
        <source>Causes proved, in the month in which their case was closed.</source>
        <translation>Causas comprobadas, en el mes en que se cerró su caso.</translation>
    </message>
    <message>
        <source>Causes that came back, ever</source>
        <translation>Causas que volvieron, en total</translation>
    </message>
    <message>
        <source>Closed</source>
        <translation>Cerrado</translation>
    </message>
    <message>
        <source>Closed cases that were fixed by those who took them on: never handed over, made safe or given up before, and worked on at one station only. With the 95 % interval.</source>
        <translation>Casos cerrados que arregló quien los tomó: nunca entregados, puestos en seguridad ni abandonados antes, y trabajados en un solo puesto. Con el intervalo de 95 %.</translation>
    </message>
    <message>
        <source>Fixed at the first go</source>
        <translation>Arreglado a la primera</translation>
    </message>
    <message>
        <source>Fixes</source>
        <translation>Arreglos</translation>
    </message>
    <message>
        <source>From</source>
        <translation>De</translation>
    </message>
    <message>
        <source>From the opening of the case to the proof that held. By the clock: median with its 95 % interval, and the middle half. At work: gaps of more than two hours between moves left out.</source>
        <translation>Desde la apertura del caso hasta la prueba que se cumplió. Por reloj: mediana con su intervalo de 95 %, y la mitad central. En trabajo: sin las pausas de más de dos horas entre movimientos.</translation>
    </message>
    <message>
        <source>From, %</source>
        <translation>De, %</translation>
    </message>
    <message>
        <source>Last move</source>
        <translation>Último movimiento</translation>
    </message>
    <message>
        <source>Median at work, min</source>
        <translation>Mediana en trabajo, min</translation>
    </message>
    <message>
        <source>Median, min</source>
        <translation>Mediana, min</translation>
    </message>
    <message>
        <source>Month</source>
        <translation>Mes</translation>
    </message>
    <message>
        <source>No case is open.</source>
        <translation>No hay ningún caso abierto.</translation>
    </message>
    <message>
        <source>No case was closed as fixed.</source>
        <translation>Ningún caso se cerró como arreglado.</translation>
    </message>
    <message>
        <source>No case was closed with a cause proved.</source>
        <translation>Ningún caso se cerró con una causa comprobada.</translation>
    </message>
    <message>
        <source>No case was closed.</source>
        <translation>No se cerró ningún caso.</translation>
    </message>
    <message>
        <source>Of the proved fixes that are 90 days old or more: after how many the same cause was proved on the same unit again within 90 days, with the 95 % interval. Younger fixes had no time to fail yet.</source>
        <translation>De los arreglos comprobados hace 90 días o más: tras cuántos se comprobó otra vez la misma causa en la misma unidad dentro de 90 días, con el intervalo de 95 %. Los más recientes no han tenido tiempo de fallar.</translation>
    </message>
    <message>
        <source>Open for</source>
        <translation>Abierto desde hace</translation>
    </message>
    <message>
        <source>Other causes</source>
        <translation>Otras causas</translation>
    </message>
    <message>
        <source>Proved fixes</source>
        <translation>Arreglos comprobados</translation>
    </message>
    <message>
        <source>Quarter over</source>
        <translation>Un cuarto por encima de</translation>
    </message>
    <message>
        <source>Quarter under</source>
        <translation>Un cuarto por debajo de</translation>
    </message>
    <message>
        <source>Share, %</source>
        <translation>Parte, %</translation>
    </message>
    <message>
        <source>Still for</source>
        <translation>Quieto desde hace</translation>
    </message>
    <message>
        <source>Symptom</source>
        <translation>Síntoma</translation>
    </message>
    <message>
        <source>The one that has stood still longest since its last move comes first.</source>
        <translation>Primero el que lleva más tiempo quieto desde su último movimiento.</translation>
    </message>
    <message>
        <source>There are no cases.</source>
        <translation>No hay casos.</translation>
    </message>
    <message>
        <source>To</source>
        <translation>A</translation>
    </message>
    <message>
        <source>To, %</source>
        <translation>A, %</translation>
    </message>
    <message>
        <source>Waits for</source>
        <translation>Espera</translation>
    </message>
    <message>
        <source>none yet</source>
        <translation>ninguno todavía</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>no se sabe</translation>
    </message>
    <message>
        <source>{hours} h {rest} min</source>
        <translation>{hours} h {rest} min</translation>
    </message>
    <message>
        <source> About {minutes}, for: {lower}.</source>
        <translation> Unos {minutes}, para: {lower}.</translation>
    </message>
    <message>
        <source> On the way to {toward}.</source>
        <translation> En camino a {toward}.</translation>
    </message>
    <message>
        <source>An electrical panel is open with the supply on: live parts can be touched. Keep everybody else away.</source>
        <translation>Hay un tablero eléctrico abierto con la alimentación conectada: se pueden tocar partes con tensión. Mantenga lejos a todos los demás.</translation>
    </message>
    <message>
        <source>The case is closed. {title}: {meaning}</source>
        <translation>El caso está cerrado. {title}: {meaning}</translation>
    </message>
    <message>
        <source>The compressor oil is cold, or not known to be warm. Never shorten the warm-up.</source>
        <translation>El aceite del compresor está frío, o no se sabe si está tibio. Nunca acorte el calentamiento.</translation>
    </message>
    <message>
        <source>The compressors run: turning fans, hot lines. Guards stay on.</source>
        <translation>Los compresores funcionan: ventiladores que giran, líneas calientes. Las guardas se quedan puestas.</translation>
    </message>
    <message>
        <source>The pump runs: its shaft turns and the water side is under pressure. Guards stay on.</source>
        <translation>La bomba funciona: su eje gira y el lado de agua está a presión. Las guardas se quedan puestas.</translation>
    </message>
    <message>
        <source>The refrigerant circuit is open. It is not run, and only licensed people work on it.</source>
        <translation>El circuito de refrigerante está abierto. No se hace funcionar, y solo trabajan en él personas con licencia.</translation>
    </message>
    <message>
        <source>The supply is locked out. Locks change hands at the unit, in person, as the site's lockout procedure says; nobody takes off another's lock. Prove dead again before you touch anything.</source>
        <translation>La alimentación está bloqueada. Los candados cambian de mano en la unidad, en persona, como dice el procedimiento de bloqueo del sitio; nadie quita el de otro. Compruebe de nuevo que no hay tensión antes de tocar nada.</translation>
    </message>
    <message>
        <source>The water side is shut off and let down. See the gauge at zero yourself before you loosen anything, and fill it before the pump is started.</source>
        <translation>El lado de agua está cerrado y sin presión. Vea usted mismo el manómetro en cero antes de aflojar nada, y llénelo antes de arrancar la bomba.</translation>
    </message>
    <message>
        <source>{remedy}: carried out, and NOT proved yet.</source>
        <translation>{remedy}: hecho, y NO comprobado todavía.</translation>
    </message>
    <message>
        <source>{remedy}: the proof {what}.</source>
        <translation>{remedy}: la prueba {what}.</translation>
    </message>
    <message>
        <source> A code does not say in what; the file does.</source>
        <translation> Un código no dice en qué; el archivo sí.</translation>
    </message>
    <message>
        <source> Another unit here is called '{unit}'.</source>
        <translation> Otra unidad de aquí se llama '{unit}'.</translation>
    </message>
    <message>
        <source> It was answered there: see that the answer still holds.</source>
        <translation> Se respondió allá: vea si la respuesta sigue valiendo.</translation>
    </message>
    <message>
        <source>Answers and readings that no longer fit</source>
        <translation>Respuestas y lecturas que ya no encajan</translation>
    </message>
    <message>
        <source>As it was when this was sent, {when}. Look again before you act on it.</source>
        <translation>Como estaba cuando se envió, {when}. Mire otra vez antes de actuar.</translation>
    </message>
    <message>
        <source>Data sheet</source>
        <translation>Hoja de datos</translation>
    </message>
    <message>
        <source>Event in the tree</source>
        <translation>Suceso del árbol</translation>
    </message>
    <message>
        <source>FaultDoc: {faultdoc} there, {version__} here.</source>
        <translation>FaultDoc: {faultdoc} allá, {version__} aquí.</translation>
    </message>
    <message>
        <source>From {what}, {when}.</source>
        <translation>De {what}, {when}.</translation>
    </message>
    <message>
        <source>How the case ended</source>
        <translation>Cómo terminó el caso</translation>
    </message>
    <message>
        <source>It did not hold</source>
        <translation>No se cumplió</translation>
    </message>
    <message>
        <source>It held</source>
        <translation>Se cumplió</translation>
    </message>
    <message>
        <source>Its data sheet comes with it, and is kept here as '{unit}'.</source>
        <translation>Su hoja de datos viene junto, y se guarda aquí como '{unit}'.</translation>
    </message>
    <message>
        <source>Likely causes, then and now</source>
        <translation>Causas probables, entonces y ahora</translation>
    </message>
    <message>
        <source>Names and numbers of {counted} come with it.</source>
        <translation>Vienen con él nombres y números de {counted}.</translation>
    </message>
    <message>
        <source>None waits</source>
        <translation>Ninguno espera</translation>
    </message>
    <message>
        <source>Not closed</source>
        <translation>Sin cerrar</translation>
    </message>
    <message>
        <source>Photos and documents: {join}</source>
        <translation>Fotos y documentos: {join}</translation>
    </message>
    <message>
        <source>Plant file</source>
        <translation>Archivo de la instalación</translation>
    </message>
    <message>
        <source>Question</source>
        <translation>Pregunta</translation>
    </message>
    <message>
        <source>Seen: {title}</source>
        <translation>Visto: {title}</translation>
    </message>
    <message>
        <source>Somebody edited it, or it was damaged on its way. Read it with care, or ask for it again.</source>
        <translation>Alguien lo editó, o se dañó en el camino. Léalo con cuidado, o pídalo otra vez.</translation>
    </message>
    <message>
        <source>Take neither; keep both in a note</source>
        <translation>No tomar ninguno; guardar ambos en una nota</translation>
    </message>
    <message>
        <source>Take what came</source>
        <translation>Tomar lo que llegó</translation>
    </message>
    <message>
        <source>Take what is here</source>
        <translation>Tomar lo que hay aquí</translation>
    </message>
    <message>
        <source>Taken back</source>
        <translation>Retirado</translation>
    </message>
    <message>
        <source>Taken back at {what}: {what_2}</source>
        <translation>Retirado en {what}: {what_2}</translation>
    </message>
    <message>
        <source>The copy that is here</source>
        <translation>La copia de aquí</translation>
    </message>
    <message>
        <source>The plant</source>
        <translation>La instalación</translation>
    </message>
    <message>
        <source>The proof of: {remedy}</source>
        <translation>La prueba de: {remedy}</translation>
    </message>
    <message>
        <source>The remedy that waits for its proof</source>
        <translation>El remedio que espera su prueba</translation>
    </message>
    <message>
        <source>The state of the plant</source>
        <translation>El estado de la instalación</translation>
    </message>
    <message>
        <source>The title of the job</source>
        <translation>El título del trabajo</translation>
    </message>
    <message>
        <source>They are kept in a note; nothing of them counts until it is asked again.</source>
        <translation>Se guardan en una nota; nada de ellas cuenta hasta que se pregunte otra vez.</translation>
    </message>
    <message>
        <source>This case is here already, and further on. Nothing is added.</source>
        <translation>Este caso ya está aquí, y más adelantado. No se agrega nada.</translation>
    </message>
    <message>
        <source>This case is here already, and was worked on at both stations. The two are put together.</source>
        <translation>Este caso ya está aquí, y se trabajó en los dos puestos. Los dos se juntan.</translation>
    </message>
    <message>
        <source>This case is here already, just as it came. Nothing is added.</source>
        <translation>Este caso ya está aquí, tal como llegó. No se agrega nada.</translation>
    </message>
    <message>
        <source>This case is here already; what was done since is added to it.</source>
        <translation>Este caso ya está aquí; se le agrega lo que se hizo desde entonces.</translation>
    </message>
    <message>
        <source>This file is not as it was sent</source>
        <translation>Este archivo no está como se envió</translation>
    </message>
    <message>
        <source>To be decided: {len}.</source>
        <translation>Por decidir: {len}.</translation>
    </message>
    <message>
        <source>Unit: {title}</source>
        <translation>Unidad: {title}</translation>
    </message>
    <message>
        <source>What came</source>
        <translation>Lo que llegó</translation>
    </message>
    <message>
        <source>What is not the same here as where it was sent from</source>
        <translation>Lo que aquí no es igual que donde se envió</translation>
    </message>
    <message>
        <source>Who is on the job</source>
        <translation>Quién está en el trabajo</translation>
    </message>
    <message>
        <source>a station without a label</source>
        <translation>un puesto sin etiqueta</translation>
    </message>
    <message>
        <source>at a time not written down</source>
        <translation>a una hora no anotada</translation>
    </message>
    <message>
        <source>built otherwise here</source>
        <translation>hecho de otro modo aquí</translation>
    </message>
    <message>
        <source>less than was sent</source>
        <translation>menos de lo que se envió</translation>
    </message>
    <message>
        <source>needs or warns of something else here</source>
        <translation>aquí necesita o advierte otra cosa</translation>
    </message>
    <message>
        <source>new here</source>
        <translation>nuevo aquí</translation>
    </message>
    <message>
        <source>not a cause here</source>
        <translation>no es causa aquí</translation>
    </message>
    <message>
        <source>not the same here</source>
        <translation>aquí no es igual</translation>
    </message>
    <message>
        <source>not there here</source>
        <translation>ya no está aquí</translation>
    </message>
    <message>
        <source>one station</source>
        <translation>un puesto</translation>
    </message>
    <message>
        <source>the answer {question} {answer}</source>
        <translation>la respuesta {question} {answer}</translation>
    </message>
    <message>
        <source>the note '{value}'</source>
        <translation>la nota '{value}'</translation>
    </message>
    <message>
        <source>the reading {point}: {reading}</source>
        <translation>la lectura {point}: {reading}</translation>
    </message>
    <message>
        <source>weighted otherwise here</source>
        <translation>con otro peso aquí</translation>
    </message>
    <message>
        <source>worded otherwise here</source>
        <translation>dicho de otro modo aquí</translation>
    </message>
    <message>
        <source>{shown}, ahead of the clock here</source>
        <translation>{shown}, adelantado respecto del reloj de aquí</translation>
    </message>
    <message>
        <source>{shown}, just now</source>
        <translation>{shown}, ahora mismo</translation>
    </message>
    <message>
        <source>{shown}, {minutes} ago</source>
        <translation>{shown}, hace {minutes}</translation>
    </message>
    <message>
        <source>{title}: {before} then, {after} now{moved}</source>
        <translation>{title}: {before} entonces, {after} ahora{moved}</translation>
    </message>
    <message>
        <source>, over the {join}</source>
        <translation>, por encima de {join}</translation>
    </message>
    <message>
        <source>, to be hired in first</source>
        <translation>, hay que alquilarlo antes</translation>
    </message>
    <message>
        <source>, to be ordered first</source>
        <translation>, hay que pedirlo antes</translation>
    </message>
    <message>
        <source>. For: {join}</source>
        <translation>. Para: {join}</translation>
    </message>
    <message>
        <source>1 special item</source>
        <translation>1 pieza especial</translation>
    </message>
    <message>
        <source>; match {join}</source>
        <translation>; debe coincidir {join}</translation>
    </message>
    <message>
        <source>An answer has stopped the work: whoever comes makes it safe before anything else is done.</source>
        <translation>Una respuesta detuvo el trabajo: quien venga la pone en seguridad antes de hacer nada más.</translation>
    </message>
    <message>
        <source>Chance of a fix on the first visit: {chance}.</source>
        <translation>Probabilidad de arreglo en la primera visita: {chance}.</translation>
    </message>
    <message>
        <source>Masses, room and what is on a van are estimates: resources/stock.yaml.</source>
        <translation>Pesos, espacio y lo que lleva una camioneta son estimaciones: resources/stock.yaml.</translation>
    </message>
    <message>
        <source>Next best to add: {addition_words}.</source>
        <translation>Lo siguiente que conviene agregar: {addition_words}.</translation>
    </message>
    <message>
        <source>Not served: {lost_words}.</source>
        <translation>No cubierto: {lost_words}.</translation>
    </message>
    <message>
        <source>See that these are on the van: {join}.</source>
        <translation>Vea que esto esté en la camioneta: {join}.</translation>
    </message>
    <message>
        <source>Send: {who}.</source>
        <translation>Enviar: {who}.</translation>
    </message>
    <message>
        <source>Take: {article_words}</source>
        <translation>Llevar: {article_words}</translation>
    </message>
    <message>
        <source>To find out which it is, useful and not counted here: {join}.</source>
        <translation>Para averiguar cuál es, útil y no contado aquí: {join}.</translation>
    </message>
    <message>
        <source>Together: {load_words}.</source>
        <translation>Juntos: {load_words}.</translation>
    </message>
    <message>
        <source>Up to {chance} is for more faults at once than were looked at.</source>
        <translation>Hasta {chance} es para más fallas a la vez de las que se miraron.</translation>
    </message>
    <message>
        <source>Without: {without} instead of {now}.</source>
        <translation>Sin esto: {without} en vez de {now}.</translation>
    </message>
    <message>
        <source>Worth less than one in a hundred.</source>
        <translation>Vale menos de uno en cien.</translation>
    </message>
    <message>
        <source>its protection has been reset as often as it may be: safety</source>
        <translation>su protección ya se rearmó todas las veces permitidas: seguridad</translation>
    </message>
    <message>
        <source>its remedy has been carried out already, and did not hold</source>
        <translation>su remedio ya se hizo, y no se cumplió</translation>
    </message>
    <message>
        <source>left behind</source>
        <translation>no se lleva</translation>
    </message>
    <message>
        <source>must be hired in first</source>
        <translation>hay que alquilarlo antes</translation>
    </message>
    <message>
        <source>must be ordered first</source>
        <translation>hay que pedirlo antes</translation>
    </message>
    <message>
        <source>nobody who may be sent is qualified: {lower}</source>
        <translation>nadie que se pueda enviar está calificado: {lower}</translation>
    </message>
    <message>
        <source>nobody who may be sent may bring the plant into the state for it</source>
        <translation>nadie que se pueda enviar puede llevar la instalación al estado necesario</translation>
    </message>
    <message>
        <source>nobody: it can be done by those who are there</source>
        <translation>nadie: lo pueden hacer quienes están ahí</translation>
    </message>
    <message>
        <source>not sent</source>
        <translation>no enviado</translation>
    </message>
    <message>
        <source>number of people</source>
        <translation>número de personas</translation>
    </message>
    <message>
        <source>number of special items</source>
        <translation>número de piezas especiales</translation>
    </message>
    <message>
        <source>see resources/stock.yaml</source>
        <translation>vea resources/stock.yaml</translation>
    </message>
    <message>
        <source>several faults at once, each set too unlikely to be looked at</source>
        <translation>varias fallas a la vez, cada conjunto demasiado improbable para mirarlo</translation>
    </message>
    <message>
        <source>the remedy may not hold</source>
        <translation>el remedio puede no cumplirse</translation>
    </message>
    <message>
        <source>work at live parts is never done alone, and only one person may be sent: safety</source>
        <translation>el trabajo en partes con tensión nunca se hace solo, y solo se puede enviar a una persona: seguridad</translation>
    </message>
    <message>
        <source>{title} for the {machine}</source>
        <translation>{title} ({machine})</translation>
    </message>
    <message>
        <source>{what} (not in the stock list: weight guessed)</source>
        <translation>{what} (no está en la lista de existencias: peso supuesto)</translation>
    </message>
    <message>
        <source>{what} special items</source>
        <translation>{what} piezas especiales</translation>
    </message>
    <message>
        <source>, after {delay:g} s</source>
        <translation>, después de {delay:g} s</translation>
    </message>
    <message>
        <source>; at this rate it is used up in about {left}</source>
        <translation>; a este ritmo se agota en unos {left}</translation>
    </message>
    <message>
        <source>; lets go at {show}</source>
        <translation>; se suelta a {show}</translation>
    </message>
    <message>
        <source>acts {value} {show}, give or take {tolerance}</source>
        <translation>actúa {value} {show}, con margen de {tolerance}</translation>
    </message>
    <message>
        <source>acts {value} {trips_at} ± {tolerance}; {reset_words}</source>
        <translation>actúa {value} {trips_at} ± {tolerance}; {reset_words}</translation>
    </message>
    <message>
        <source>at its setting as far as can be told: {amount} {side} ({size}); it may act at any moment</source>
        <translation>en su ajuste hasta donde se puede decir: {amount} {side} ({size}); puede actuar en cualquier momento</translation>
    </message>
    <message>
        <source>between {show} and {show_2}, {side}</source>
        <translation>entre {show} y {show_2}, {side}</translation>
    </message>
    <message>
        <source>no change beyond the meters' own ({by}, {abs:.1f} standard uncertainties)</source>
        <translation>ningún cambio más allá del de los medidores ({by}, {abs:.1f} incertidumbres estándar)</translation>
    </message>
    <message>
        <source>over 100 standard uncertainties</source>
        <translation>más de 100 incertidumbres estándar</translation>
    </message>
    <message>
        <source>past it</source>
        <translation>más allá</translation>
    </message>
    <message>
        <source>past its setting by {amount} ({size}): it should have acted. Find out whether it did; do not bypass it</source>
        <translation>pasó su ajuste en {amount} ({size}): debió actuar. Averigüe si lo hizo; no lo puentee</translation>
    </message>
    <message>
        <source>reset by hand</source>
        <translation>se rearma a mano</translation>
    </message>
    <message>
        <source>resets by itself</source>
        <translation>se rearma solo</translation>
    </message>
    <message>
        <source>the margin has {way} by {by} ({abs:.1f} standard uncertainties)</source>
        <translation>el margen ha {way} en {by} ({abs:.1f} incertidumbres estándar)</translation>
    </message>
    <message>
        <source>{abs:.1f} standard uncertainties</source>
        <translation>{abs:.1f} incertidumbres estándar</translation>
    </message>
    <message>
        <source>{amount} left ({size})</source>
        <translation>quedan {amount} ({size})</translation>
    </message>
    <message>
        <source>{days:.0f} days</source>
        <translation>{days:.0f} días</translation>
    </message>
    <message>
        <source>{what:.0f} hours</source>
        <translation>{what:.0f} horas</translation>
    </message>
    <message>
        <source>, {show} a circuit</source>
        <translation>, {show} por circuito</translation>
    </message>
    <message>
        <source>, {show} by mass</source>
        <translation>, {show} en masa</translation>
    </message>
    <message>
        <source>: ask what is in the loop now</source>
        <translation>: pregunte qué hay ahora en el circuito</translation>
    </message>
    <message>
        <source>circuit and protection currents on the nameplate</source>
        <translation>corrientes de circuito y de protección de la placa</translation>
    </message>
    <message>
        <source>compressor {amperes}</source>
        <translation>compresor {amperes}</translation>
    </message>
    <message>
        <source>control voltage {show}</source>
        <translation>tensión de control {show}</translation>
    </message>
    <message>
        <source>cooling {show} over {circuits} circuit</source>
        <translation>enfriamiento {show} en {circuits} circuito</translation>
    </message>
    <message>
        <source>differential switch that makes at {made}</source>
        <translation>interruptor diferencial que cierra a {made}</translation>
    </message>
    <message>
        <source>fan motor {join}</source>
        <translation>motor de ventilador {join}</translation>
    </message>
    <message>
        <source>flow {show}</source>
        <translation>caudal {show}</translation>
    </message>
    <message>
        <source>full scale {top}</source>
        <translation>fondo de escala {top}</translation>
    </message>
    <message>
        <source>heater {show}</source>
        <translation>calefactor {show}</translation>
    </message>
    <message>
        <source>kind and setting of the old switch</source>
        <translation>tipo y ajuste del interruptor viejo</translation>
    </message>
    <message>
        <source>largest protection {show}</source>
        <translation>protección máxima {show}</translation>
    </message>
    <message>
        <source>least circuit current {show}</source>
        <translation>corriente mínima de circuito {show}</translation>
    </message>
    <message>
        <source>power and current on the plate of the {machine}'s motor</source>
        <translation>potencia y corriente en la placa del motor ({machine})</translation>
    </message>
    <message>
        <source>pump motor {power}, {show}</source>
        <translation>motor de la bomba {power}, {show}</translation>
    </message>
    <message>
        <source>pump: {flow} at design, shut-off head {head}</source>
        <translation>bomba: {flow} de diseño, altura a caudal cero {head}</translation>
    </message>
    <message>
        <source>refrigerant {refrigerant}</source>
        <translation>refrigerante {refrigerant}</translation>
    </message>
    <message>
        <source>relief setting {setting}</source>
        <translation>ajuste de alivio {setting}</translation>
    </message>
    <message>
        <source>supply {voltage}, {frequency}</source>
        <translation>alimentación {voltage}, {frequency}</translation>
    </message>
    <message>
        <source>switch that makes at {made}</source>
        <translation>interruptor que cierra a {made}</translation>
    </message>
    <message>
        <source>the data sheet knows of no glycol: ask what is in the loop</source>
        <translation>la hoja de datos no sabe de glicol: pregunte qué hay en el circuito</translation>
    </message>
    <message>
        <source>the heater's power on the old one</source>
        <translation>la potencia del calefactor en el viejo</translation>
    </message>
    <message>
        <source>the oil named on the compressor's plate, for {refrigerant}</source>
        <translation>el aceite que dice la placa del compresor, para {refrigerant}</translation>
    </message>
    <message>
        <source>the pump's plate: flow and head</source>
        <translation>la placa de la bomba: caudal y altura</translation>
    </message>
    <message>
        <source>the transformer's rating on its plate</source>
        <translation>la capacidad del transformador en su placa</translation>
    </message>
    <message>
        <source>transformer {show}</source>
        <translation>transformador {show}</translation>
    </message>
    <message>
        <source>type, size and setting marked on the old one</source>
        <translation>tipo, tamaño y ajuste marcados en el viejo</translation>
    </message>
    <message>
        <source>water connections {show}</source>
        <translation>conexiones de agua {show}</translation>
    </message>
    <message>
        <source>{inside} of water in the unit; ask what the loop holds</source>
        <translation>{inside} de agua en la unidad; pregunte cuánto lleva el circuito</translation>
    </message>
    <message>
        <source>{value} glycol</source>
        <translation>glicol: {value}</translation>
    </message>
    <message>
        <source>{words} (assumed: read it at the unit)</source>
        <translation>{words} (supuesto: léalo en la unidad)</translation>
    </message>
    <message>
        <source>Ask on: {what} may save about {minutes} of the visit.</source>
        <translation>Seguir preguntando: {what} puede ahorrar unos {minutes} de la visita.</translation>
    </message>
    <message>
        <source>Asking on: about {minutes} to a proved fix, {minutes_2} of it on the phone; {chance} that it ends by phone.</source>
        <translation>Seguir preguntando: unos {minutes} hasta un arreglo comprobado, {minutes_2} de ellos al teléfono; {chance} de que termine por teléfono.</translation>
    </message>
    <message>
        <source>Asking on: nothing is left that the caller may look at or do.</source>
        <translation>Seguir preguntando: no queda nada que quien llama pueda mirar o hacer.</translation>
    </message>
    <message>
        <source>Call for help now: {join}.</source>
        <translation>Pida ayuda ahora: {join}.</translation>
    </message>
    <message>
        <source>Call the site's emergency number now; where there is none, fire and ambulance.</source>
        <translation>Llame ahora al número de emergencia del sitio; si no hay, a bomberos y ambulancia.</translation>
    </message>
    <message>
        <source>Get everybody away from the unit, up-wind, and let nobody touch it.</source>
        <translation>Aleje a todos de la unidad, del lado de donde viene el viento, y que nadie la toque.</translation>
    </message>
    <message>
        <source>I hang up now, so that your phone is free. Call me back from a safe place once help is there.</source>
        <translation>Ahora cuelgo, para que su teléfono quede libre. Llámeme desde un lugar seguro cuando llegue la ayuda.</translation>
    </message>
    <message>
        <source>Is there anybody near you who was there or looks after it, and whom you could ask? I can wait.</source>
        <translation>¿Hay alguien cerca que haya estado ahí o que la cuide, y a quien pueda preguntar? Puedo esperar.</translation>
    </message>
    <message>
        <source>Leave all doors and covers shut, and every valve and switch as it stands.</source>
        <translation>Deje cerradas todas las puertas y tapas, y cada válvula e interruptor como está.</translation>
    </message>
    <message>
        <source>Leave its main supply on, so that its oil stays warm; unless you smell, see or hear a danger.</source>
        <translation>Deje conectada su alimentación principal, para que el aceite siga tibio; salvo que huela, vea u oiga un peligro.</translation>
    </message>
    <message>
        <source>Leave the unit switched off at its own on/off control.</source>
        <translation>Deje la unidad apagada con su propio mando.</translation>
    </message>
    <message>
        <source>Put a note on it: do not start, service has been called. Keep people away from it.</source>
        <translation>Póngale una nota: no arrancar, servicio llamado. Mantenga a la gente lejos de ella.</translation>
    </message>
    <message>
        <source>Read me the number and the letters beside it, just as they stand. If you do not find it, tell me so.</source>
        <translation>Léame el número y las letras que están al lado, tal como están. Si no lo encuentra, dígamelo.</translation>
    </message>
    <message>
        <source>Send someone now: {minutes} travel, then about {minutes_2} to a proved fix; {chance} that they bring what it takes.</source>
        <translation>Enviar a alguien ahora: {minutes} de viaje, luego unos {minutes_2} hasta un arreglo comprobado; {chance} de que lleve lo necesario.</translation>
    </message>
    <message>
        <source>Send someone: nothing is left that the caller may tell.</source>
        <translation>Enviar a alguien: no queda nada que quien llama pueda decir.</translation>
    </message>
    <message>
        <source>Send someone: {why}. Ask the rest while they are on their way.</source>
        <translation>Enviar a alguien: {why}. Pregunte lo demás mientras van en camino.</translation>
    </message>
    <message>
        <source>Stay a few steps back and hold the phone towards it, so that I can listen too.</source>
        <translation>Quédese a unos pasos y apunte el teléfono hacia ella, para que yo también oiga.</translation>
    </message>
    <message>
        <source>Tell me in your own words what you see, even if you are not sure. Where to look: {where}. Touch nothing and open nothing.</source>
        <translation>Dígame con sus palabras lo que ve, aunque no esté seguro. Dónde mirar: {where}. No toque ni abra nada.</translation>
    </message>
    <message>
        <source>Thank you for telling me. We stop here; please do exactly this.</source>
        <translation>Gracias por decírmelo. Paramos aquí; por favor haga exactamente esto.</translation>
    </message>
    <message>
        <source>You need not go any nearer. Tell me what you see and smell from where you are; in doubt keep away.</source>
        <translation>No hace falta acercarse más. Dígame lo que ve y huele desde donde está; si duda, manténgase lejos.</translation>
    </message>
    <message>
        <source>asking on costs as many minutes as it spares</source>
        <translation>seguir preguntando cuesta tantos minutos como ahorra</translation>
    </message>
    <message>
        <source>call back now</source>
        <translation>volver a llamar ahora</translation>
    </message>
    <message>
        <source>call back {astimezone:%H:%M}</source>
        <translation>volver a llamar {astimezone:%H:%M}</translation>
    </message>
    <message>
        <source>danger told</source>
        <translation>peligro avisado</translation>
    </message>
    <message>
        <source>no further question from here changes what to bring</source>
        <translation>ninguna otra pregunta desde aquí cambia lo que hay que llevar</translation>
    </message>
    <message>
        <source>the next question</source>
        <translation>la pregunta siguiente</translation>
    </message>
    <message>
        <source>the next {COUNTED} questions</source>
        <translation>las {COUNTED} preguntas siguientes</translation>
    </message>
    <message>
        <source>what the caller may do</source>
        <translation>lo que puede hacer quien llama</translation>
    </message>
    <message>
        <source>Waits before a start</source>
        <translation>Esperas antes de un arranque</translation>
    </message>
    <message>
        <source>left of {whole}</source>
        <translation>quedan {whole}</translation>
    </message>
    <message>
        <source> A drop of {told} stands for {show}.</source>
        <translation> Una caída de {told} corresponde a {show}.</translation>
    </message>
    <message>
        <source> A head of {show} stands for {show_2} on this curve, if the pump is sound.</source>
        <translation> Una altura de {show} corresponde a {show_2} en esta curva, si la bomba está sana.</translation>
    </message>
    <message>
        <source> At {told} it should be </source>
        <translation> A {told} debe ser </translation>
    </message>
    <message>
        <source> Measured: a head of {told} at {told_2}, {taken}.</source>
        <translation> Medido: una altura de {told} a {told_2}, {taken}.</translation>
    </message>
    <message>
        <source> Measured: {told} at {told_2}, where the curve has {show}.</source>
        <translation> Medido: {told} a {told_2}, donde la curva tiene {show}.</translation>
    </message>
    <message>
        <source> Neither the drop nor the flow has been read yet.</source>
        <translation> No se han leído todavía ni la caída ni el caudal.</translation>
    </message>
    <message>
        <source> The pump's pressures have not been read yet.</source>
        <translation> Las presiones de la bomba no se han leído todavía.</translation>
    </message>
    <message>
        <source>A healthy loop meets the pump's curve at {show} and a head of {show_2}.</source>
        <translation>Un circuito sano cruza la curva de la bomba a {show} y una altura de {show_2}.</translation>
    </message>
    <message>
        <source>At design flow, {show}, the drop should be </source>
        <translation>Al caudal de diseño, {show}, la caída debe ser </translation>
    </message>
    <message>
        <source>Barrel: pressure drop and flow</source>
        <translation>Evaporador: caída de presión y caudal</translation>
    </message>
    <message>
        <source>Head</source>
        <translation>Altura</translation>
    </message>
    <message>
        <source>Pressure drop</source>
        <translation>Caída de presión</translation>
    </message>
    <message>
        <source>Pump: head and flow</source>
        <translation>Bomba: altura y caudal</translation>
    </message>
    <message>
        <source>Water flow</source>
        <translation>Caudal de agua</translation>
    </message>
    <message>
        <source>by the meter</source>
        <translation>con el caudalímetro</translation>
    </message>
    <message>
        <source>by two gauges</source>
        <translation>con dos manómetros</translation>
    </message>
    <message>
        <source>healthy loop</source>
        <translation>circuito sano</translation>
    </message>
    <message>
        <source>measured, with how sure it is</source>
        <translation>medido, con cuánta seguridad</translation>
    </message>
    <message>
        <source>read off the barrel's drop</source>
        <translation>leído de la caída del evaporador</translation>
    </message>
    <message>
        <source>the data sheet's curve, for this water</source>
        <translation>la curva de la hoja de datos, para esta agua</translation>
    </message>
    <message>
        <source>the pump's curve</source>
        <translation>la curva de la bomba</translation>
    </message>
    <message>
        <source>what a healthy loop takes</source>
        <translation>lo que consume un circuito sano</translation>
    </message>
    <message>
        <source>where it lies, 95 times of 100</source>
        <translation>donde está, 95 veces de 100</translation>
    </message>
    <message>
        <source> A healthy unit {where}: {told}.</source>
        <translation> Una unidad sana {where}: {told}.</translation>
    </message>
    <message>
        <source>Enthalpy</source>
        <translation>Entalpía</translation>
    </message>
    <message>
        <source>Measured: {told}.</source>
        <translation>Medido: {told}.</translation>
    </message>
    <message>
        <source>Pressure</source>
        <translation>Presión</translation>
    </message>
    <message>
        <source>Pressure and enthalpy, circuit {upper}, {name}</source>
        <translation>Presión y entalpía, circuito {upper}, {name}</translation>
    </message>
    <message>
        <source>The discharge line is colder than the gas condenses: a reading is untrue, or liquid goes through.</source>
        <translation>La línea de descarga está más fría de lo que condensa el gas: una lectura no es cierta, o pasa líquido.</translation>
    </message>
    <message>
        <source>The liquid line is warmer than the liquid boils: gas in it, or a reading is untrue.</source>
        <translation>La línea de líquido está más caliente de lo que hierve el líquido: lleva gas, o una lectura no es cierta.</translation>
    </message>
    <message>
        <source>The suction line is colder than the gas boils: liquid comes back, or a reading is untrue.</source>
        <translation>La línea de succión está más fría de lo que hierve el gas: vuelve líquido, o una lectura no es cierta.</translation>
    </message>
    <message>
        <source>a healthy unit</source>
        <translation>una unidad sana</translation>
    </message>
    <message>
        <source>at its rating in hot air, as the outdoor air was not read</source>
        <translation>en su condición nominal con aire caliente, pues no se leyó el aire exterior</translation>
    </message>
    <message>
        <source>in this weather and water</source>
        <translation>con este clima y esta agua</translation>
    </message>
    <message>
        <source>{low} to {high}, superheat {show}, subcooling {show_2}</source>
        <translation>{low} a {high}, recalentamiento {show}, subenfriamiento {show_2}</translation>
    </message>
    <message>
        <source>Across</source>
        <translation>En el polo</translation>
    </message>
    <message>
        <source>Ampacity</source>
        <translation>Ampacidad</translation>
    </message>
    <message>
        <source>Area</source>
        <translation>Sección</translation>
    </message>
    <message>
        <source>At the terminals</source>
        <translation>En los bornes</translation>
    </message>
    <message>
        <source>Breaker</source>
        <translation>Interruptor</translation>
    </message>
    <message>
        <source>Compressor {number}</source>
        <translation>Compresor {number}</translation>
    </message>
    <message>
        <source>Contactor</source>
        <translation>Contactor</translation>
    </message>
    <message>
        <source>Control circuit</source>
        <translation>Circuito de control</translation>
    </message>
    <message>
        <source>Current</source>
        <translation>Corriente</translation>
    </message>
    <message>
        <source>Each condenser fan's motor with its three lines.</source>
        <translation>El motor de cada ventilador del condensador con sus tres líneas.</translation>
    </message>
    <message>
        <source>Fan {number}</source>
        <translation>Ventilador {number}</translation>
    </message>
    <message>
        <source>Feeder</source>
        <translation>Alimentador</translation>
    </message>
    <message>
        <source>Frequency</source>
        <translation>Frecuencia</translation>
    </message>
    <message>
        <source>From the terminals</source>
        <translation>Desde los bornes</translation>
    </message>
    <message>
        <source>Hz, no load</source>
        <translation>Hz, vacío</translation>
    </message>
    <message>
        <source>Hz, starting</source>
        <translation>Hz, arranque</translation>
    </message>
    <message>
        <source>Lamps</source>
        <translation>Lámparas</translation>
    </message>
    <message>
        <source>Length</source>
        <translation>Longitud</translation>
    </message>
    <message>
        <source>Metal</source>
        <translation>Metal</translation>
    </message>
    <message>
        <source>Motor: {lower}</source>
        <translation>Motor: {lower}</translation>
    </message>
    <message>
        <source>Motors: fans</source>
        <translation>Motores: ventiladores</translation>
    </message>
    <message>
        <source>No load</source>
        <translation>En vacío</translation>
    </message>
    <message>
        <source>Off and on</source>
        <translation>Paro y marcha</translation>
    </message>
    <message>
        <source>On for</source>
        <translation>Con energía</translation>
    </message>
    <message>
        <source>Order of phases; against a known supply</source>
        <translation>Orden de fases; contra una alimentación conocida</translation>
    </message>
    <message>
        <source>Protection</source>
        <translation>Protección</translation>
    </message>
    <message>
        <source>Pump</source>
        <translation>Bomba</translation>
    </message>
    <message>
        <source>Rated</source>
        <translation>Nominal</translation>
    </message>
    <message>
        <source>Reactance</source>
        <translation>Reactancia</translation>
    </message>
    <message>
        <source>Rolled</source>
        <translation>Rotados</translation>
    </message>
    <message>
        <source>Sequence</source>
        <translation>Secuencia</translation>
    </message>
    <message>
        <source>Sets</source>
        <translation>Juegos</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Tamaño</translation>
    </message>
    <message>
        <source>Source</source>
        <translation>Fuente</translation>
    </message>
    <message>
        <source>Starting; in all</source>
        <translation>Arranque; total</translation>
    </message>
    <message>
        <source>Starts, 1 h</source>
        <translation>Arranq., 1 h</translation>
    </message>
    <message>
        <source>Stopped for</source>
        <translation>Parado hace</translation>
    </message>
    <message>
        <source>Temperature</source>
        <translation>Temperatura</translation>
    </message>
    <message>
        <source>Three lines go from the source through the feeder to the unit's terminals, and from there to the motors and the control circuit.</source>
        <translation>Tres líneas van de la fuente por el alimentador a los bornes de la unidad, y de ahí a los motores y al circuito de control.</translation>
    </message>
    <message>
        <source>Three lines go through the contactor to the motor of the {lower}; its winding lies between them, and its insulation to ground.</source>
        <translation>Tres líneas van por el contactor al motor ({lower}); su devanado está entre ellas, y su aislamiento hacia tierra.</translation>
    </message>
    <message>
        <source>To ground</source>
        <translation>A tierra</translation>
    </message>
    <message>
        <source>Unit's terminals</source>
        <translation>Bornes de la unidad</translation>
    </message>
    <message>
        <source>V, starting</source>
        <translation>V, arranque</translation>
    </message>
    <message>
        <source>Voltage</source>
        <translation>Tensión</translation>
    </message>
    <message>
        <source>Winding, proved dead</source>
        <translation>Devanado, sin tensión</translation>
    </message>
    <message>
        <source>{words} to {words}</source>
        <translation>{words} a {words}</translation>
    </message>
    <message>
        <source>{words}-ground</source>
        <translation>{words}-tierra</translation>
    </message>
    <message>
        <source>Barrel: drop and flow</source>
        <translation>Evaporador: caída y caudal</translation>
    </message>
    <message>
        <source>Cycle of circuit {upper}</source>
        <translation>Ciclo del circuito {upper}</translation>
    </message>
    <message>
        <source>Read all three voltages between lines, or all three currents of one motor ({motors}).</source>
        <translation>Lea las tres tensiones entre líneas, o las tres corrientes de un motor ({motors}).</translation>
    </message>
    <message>
        <source>Read how long the unit has had power, or how long a compressor has stood still.</source>
        <translation>Lea cuánto tiempo ha tenido energía la unidad, o cuánto lleva parado un compresor.</translation>
    </message>
    <message>
        <source>Still to be read, with the circuit running: </source>
        <translation>Falta leer, con el circuito en marcha: </translation>
    </message>
    <message>
        <source>These readings make no cycle: {problem}.</source>
        <translation>Estas lecturas no forman un ciclo: {problem}.</translation>
    </message>
    <message>
        <source>This unit has no pump of its own.</source>
        <translation>Esta unidad no tiene bomba propia.</translation>
    </message>
    <message>
        <source>Three phases</source>
        <translation>Tres fases</translation>
    </message>
    <message>
        <source>10 pipe bores straight before</source>
        <translation>10 diámetros rectos antes</translation>
    </message>
    <message>
        <source>5 behind</source>
        <translation>5 después</translation>
    </message>
    <message>
        <source>A cable's size</source>
        <translation>El tamaño de un cable</translation>
    </message>
    <message>
        <source>A needle that swings</source>
        <translation>Una aguja que oscila</translation>
    </message>
    <message>
        <source>A pressure drop</source>
        <translation>Una caída de presión</translation>
    </message>
    <message>
        <source>Above and below one closed pole, loaded</source>
        <translation>Arriba y abajo de un polo cerrado, con carga</translation>
    </message>
    <message>
        <source>All of it: both ways,</source>
        <translation>Todo: ida y vuelta,</translation>
    </message>
    <message>
        <source>Arrow with the flow; right pipe size set</source>
        <translation>Flecha con el caudal; tubo bien ajustado</translation>
    </message>
    <message>
        <source>As it coasts down,</source>
        <translation>Mientras se detiene,</translation>
    </message>
    <message>
        <source>Ask who switched what</source>
        <translation>Pregunte quién encendió qué</translation>
    </message>
    <message>
        <source>Blown off: out of</source>
        <translation>Lo empuja: hacia fuera</translation>
    </message>
    <message>
        <source>Bright metal, paste,</source>
        <translation>Metal brillante, pasta,</translation>
    </message>
    <message>
        <source>By eye</source>
        <translation>A la vista</translation>
    </message>
    <message>
        <source>Current with a clamp</source>
        <translation>Corriente con pinza</translation>
    </message>
    <message>
        <source>Dead, locked, electronics off; 1 min</source>
        <translation>Sin tensión, bloqueado, sin electrónica; 1 min</translation>
    </message>
    <message>
        <source>Eye straight before it</source>
        <translation>La vista de frente</translation>
    </message>
    <message>
        <source>From the unit's log,</source>
        <translation>Del registro de la unidad,</translation>
    </message>
    <message>
        <source>Glycol by refractometer</source>
        <translation>Glicol con refractómetro</translation>
    </message>
    <message>
        <source>Gravity in a jar</source>
        <translation>Densidad en un frasco</translation>
    </message>
    <message>
        <source>Guard stays on; look, do not reach</source>
        <translation>La guarda queda puesta; mire, no meta la mano</translation>
    </message>
    <message>
        <source>Half a minute:</source>
        <translation>Medio minuto:</translation>
    </message>
    <message>
        <source>In the shade</source>
        <translation>A la sombra</translation>
    </message>
    <message>
        <source>Insulation, dead</source>
        <translation>Aislamiento, sin tensión</translation>
    </message>
    <message>
        <source>Isolated, locked,</source>
        <translation>Desconectado, bloqueado,</translation>
    </message>
    <message>
        <source>It must float free.</source>
        <translation>Debe flotar libre.</translation>
    </message>
    <message>
        <source>Jaw shut, conductor in its middle.</source>
        <translation>Pinza cerrada, conductor en medio.</translation>
    </message>
    <message>
        <source>Leads in order, at the unit's terminals.</source>
        <translation>Puntas en orden, en los bornes de la unidad.</translation>
    </message>
    <message>
        <source>Leads off; less the meter's own leads</source>
        <translation>Cables sueltos; menos los del medidor</translation>
    </message>
    <message>
        <source>Length or height</source>
        <translation>Longitud o altura</translation>
    </message>
    <message>
        <source>Look twice,</source>
        <translation>Mire dos veces,</translation>
    </message>
    <message>
        <source>Meter proved on a known supply first,</source>
        <translation>Medidor probado antes en una fuente</translation>
    </message>
    <message>
        <source>Never cut or bared to see it</source>
        <translation>Nunca se corta ni se pela para verlo</translation>
    </message>
    <message>
        <source>Note the sample's</source>
        <translation>Anote también la</translation>
    </message>
    <message>
        <source>Nothing opened, nothing touched</source>
        <translation>Nada abierto, nada tocado</translation>
    </message>
    <message>
        <source>Off a plate or papers</source>
        <translation>De una placa o papeles</translation>
    </message>
    <message>
        <source>Off its plate or its papers; the unit too</source>
        <translation>De su placa o sus papeles; la unidad también</translation>
    </message>
    <message>
        <source>On the sheath:</source>
        <translation>En la cubierta:</translation>
    </message>
    <message>
        <source>One conductor only</source>
        <translation>Un solo conductor</translation>
    </message>
    <message>
        <source>Open slowly; needle at rest</source>
        <translation>Abra despacio; aguja quieta</translation>
    </message>
    <message>
        <source>Order of the phases</source>
        <translation>Orden de las fases</translation>
    </message>
    <message>
        <source>Out of the fans' air; two minutes</source>
        <translation>Fuera del aire de los ventiladores; 2 min</translation>
    </message>
    <message>
        <source>Over the guard,</source>
        <translation>Sobre la guarda,</translation>
    </message>
    <message>
        <source>Phases are never swapped live.</source>
        <translation>Las fases nunca se cambian con tensión.</translation>
    </message>
    <message>
        <source>Pressure at a tap</source>
        <translation>Presión en una toma</translation>
    </message>
    <message>
        <source>Read at the surface</source>
        <translation>Lea en la superficie</translation>
    </message>
    <message>
        <source>Resistance, dead</source>
        <translation>Resistencia, sin tensión</translation>
    </message>
    <message>
        <source>Round all three it shows nothing.</source>
        <translation>Alrededor de los tres no marca nada.</translation>
    </message>
    <message>
        <source>Scale of the glycol that is in the loop</source>
        <translation>La escala del glicol que hay en el circuito</translation>
    </message>
    <message>
        <source>Seen at zero first</source>
        <translation>Visto antes en cero</translation>
    </message>
    <message>
        <source>Temperature of a pipe</source>
        <translation>Temperatura de un tubo</translation>
    </message>
    <message>
        <source>Temperature of the air</source>
        <translation>Temperatura del aire</translation>
    </message>
    <message>
        <source>The difference, with water running</source>
        <translation>La diferencia, con agua corriendo</translation>
    </message>
    <message>
        <source>Times and counts</source>
        <translation>Tiempos y cuentas</translation>
    </message>
    <message>
        <source>Two drops on the prism,</source>
        <translation>Dos gotas en el prisma,</translation>
    </message>
    <message>
        <source>Voltage across a closed pole</source>
        <translation>Tensión en un polo cerrado</translation>
    </message>
    <message>
        <source>Wait until it stands still</source>
        <translation>Espere a que quede quieto</translation>
    </message>
    <message>
        <source>Which way a fan blows</source>
        <translation>Hacia dónde sopla un ventilador</translation>
    </message>
    <message>
        <source>Which way a pump turns</source>
        <translation>Hacia dónde gira una bomba</translation>
    </message>
    <message>
        <source>Zero it with plain water first.</source>
        <translation>Póngalo a cero antes con agua común.</translation>
    </message>
    <message>
        <source>against the arrow</source>
        <translation>contra la flecha</translation>
    </message>
    <message>
        <source>and again after</source>
        <translation>conocida, y otra vez después</translation>
    </message>
    <message>
        <source>from a safe place</source>
        <translation>desde un lugar seguro</translation>
    </message>
    <message>
        <source>highest pipe</source>
        <translation>tubo más alto</translation>
    </message>
    <message>
        <source>highest reading</source>
        <translation>y la más alta</translation>
    </message>
    <message>
        <source>how many of them</source>
        <translation>cuántos son</translation>
    </message>
    <message>
        <source>lid shut, no bubble</source>
        <translation>tapa cerrada, sin burbuja</translation>
    </message>
    <message>
        <source>lowest and</source>
        <translation>la lectura más baja</translation>
    </message>
    <message>
        <source>metal and size;</source>
        <translation>metal y tamaño;</translation>
    </message>
    <message>
        <source>never through it</source>
        <translation>nunca a través</translation>
    </message>
    <message>
        <source>on the casing</source>
        <translation>de la carcasa</translation>
    </message>
    <message>
        <source>one gauge, moved</source>
        <translation>un manómetro, movido</translation>
    </message>
    <message>
        <source>or by your watch.</source>
        <translation>o con su reloj.</translation>
    </message>
    <message>
        <source>or from gauge to the</source>
        <translation>o del manómetro al</translation>
    </message>
    <message>
        <source>or two, level</source>
        <translation>o dos, a nivel</translation>
    </message>
    <message>
        <source>proved dead</source>
        <translation>sin tensión comprobado</translation>
    </message>
    <message>
        <source>strap, insulation over it</source>
        <translation>abrazadera, aislante encima</translation>
    </message>
    <message>
        <source>temperature too</source>
        <translation>temperatura de la muestra</translation>
    </message>
    <message>
        <source>the unit, right</source>
        <translation>de la unidad, bien</translation>
    </message>
    <message>
        <source> A motor may then carry {what:.0f} % of its rated power.</source>
        <translation> Un motor puede llevar entonces {what:.0f} % de su potencia nominal.</translation>
    </message>
    <message>
        <source> Above 5 % no motor may run on it (NEMA MG 1, 14.36).</source>
        <translation> Por encima de 5 % ningún motor puede funcionar con ella (NEMA MG 1, 14.36).</translation>
    </message>
    <message>
        <source>(largest deviation over the mean, NEMA MG 1).</source>
        <translation>(mayor desviación sobre el promedio, NEMA MG 1).</translation>
    </message>
    <message>
        <source>Compressor {n}</source>
        <translation>Compresor {n}</translation>
    </message>
    <message>
        <source>Currents: no motor has all three read</source>
        <translation>Corrientes: ningún motor tiene las tres leídas</translation>
    </message>
    <message>
        <source>Fan {n}</source>
        <translation>Ventilador {n}</translation>
    </message>
    <message>
        <source>These do not close to a triangle:</source>
        <translation>Estas no cierran un triángulo:</translation>
    </message>
    <message>
        <source>Unbalance {percent}</source>
        <translation>Desequilibrio {percent}</translation>
    </message>
    <message>
        <source>Voltage between lines</source>
        <translation>Tensión entre líneas</translation>
    </message>
    <message>
        <source>Voltages between lines: {named}; unbalance {percent} </source>
        <translation>Tensiones entre líneas: {named}; desequilibrio {percent} </translation>
    </message>
    <message>
        <source>Voltages between lines: {named}; {problem}.</source>
        <translation>Tensiones entre líneas: {named}; {problem}.</translation>
    </message>
    <message>
        <source>Voltages: not all three are read</source>
        <translation>Tensiones: no están leídas las tres</translation>
    </message>
    <message>
        <source>mean; a clamp shows no angles</source>
        <translation>promedio; una pinza no muestra ángulos</translation>
    </message>
    <message>
        <source>nameplate, {show}</source>
        <translation>placa, {show}</translation>
    </message>
    <message>
        <source>one of them is misread</source>
        <translation>una de ellas está mal leída</translation>
    </message>
    <message>
        <source>{title}, currents: {named}; unbalance {percent}.</source>
        <translation>{title}, corrientes: {named}; desequilibrio {percent}.</translation>
    </message>
    <message>
        <source>{title}: current</source>
        <translation>{title}: corriente</translation>
    </message>
    <message>
        <source>{title}: no current in any line.</source>
        <translation>{title}: sin corriente en ninguna línea.</translation>
    </message>
    <message>
        <source>Air in</source>
        <translation>Entra aire</translation>
    </message>
    <message>
        <source>Air out</source>
        <translation>Sale aire</translation>
    </message>
    <message>
        <source>Around</source>
        <translation>Alrededor</translation>
    </message>
    <message>
        <source>At rest</source>
        <translation>En reposo</translation>
    </message>
    <message>
        <source>Circuit {upper}</source>
        <translation>Circuito {upper}</translation>
    </message>
    <message>
        <source>Compr. running</source>
        <translation>Compr. en marcha</translation>
    </message>
    <message>
        <source>Condenser</source>
        <translation>Condensador</translation>
    </message>
    <message>
        <source>Counted</source>
        <translation>Contado</translation>
    </message>
    <message>
        <source>Discharge</source>
        <translation>Descarga</translation>
    </message>
    <message>
        <source>Discharge line</source>
        <translation>Línea de descarga</translation>
    </message>
    <message>
        <source>Drier</source>
        <translation>Filtro secador</translation>
    </message>
    <message>
        <source>Evaporator barrel</source>
        <translation>Evaporador</translation>
    </message>
    <message>
        <source>Expansion valve</source>
        <translation>Válvula de expansión</translation>
    </message>
    <message>
        <source>Fans standing</source>
        <translation>Vent. parados</translation>
    </message>
    <message>
        <source>Gas goes from the compressors to the condenser, where fans draw air through; liquid goes through drier, sight glass and expansion valve into the barrel, and gas back to the compressors.</source>
        <translation>El gas va de los compresores al condensador, por donde los ventiladores pasan aire; el líquido va por filtro secador, mirilla y válvula de expansión al evaporador, y el gas vuelve a los compresores.</translation>
    </message>
    <message>
        <source>Height</source>
        <translation>Altitud</translation>
    </message>
    <message>
        <source>Liquid</source>
        <translation>Líquido</translation>
    </message>
    <message>
        <source>Liquid line</source>
        <translation>Línea de líquido</translation>
    </message>
    <message>
        <source>Oil</source>
        <translation>Aceite</translation>
    </message>
    <message>
        <source>Outdoor air</source>
        <translation>Aire exterior</translation>
    </message>
    <message>
        <source>Sight glass</source>
        <translation>Mirilla</translation>
    </message>
    <message>
        <source>Suction</source>
        <translation>Succión</translation>
    </message>
    <message>
        <source>Suction line</source>
        <translation>Línea de succión</translation>
    </message>
    <message>
        <source> Asked for now: {join}.</source>
        <translation> Pedido ahora: {join}.</translation>
    </message>
    <message>
        <source> Not as expected: {join}.</source>
        <translation> No como se espera: {join}.</translation>
    </message>
    <message>
        <source>Compressor {n}'s motor</source>
        <translation>Motor del compresor {n}</translation>
    </message>
    <message>
        <source>Fans' motors</source>
        <translation>Motores de ventiladores</translation>
    </message>
    <message>
        <source>Pump's motor</source>
        <translation>Motor de la bomba</translation>
    </message>
    <message>
        <source>{read} of {len} points read.</source>
        <translation>{read} de {len} puntos leídos.</translation>
    </message>
    <message>
        <source> Asked for now.</source>
        <translation> Pedido ahora.</translation>
    </message>
    <message>
        <source>could not be measured</source>
        <translation>no se pudo medir</translation>
    </message>
    <message>
        <source>Barrel in</source>
        <translation>Entrada evap.</translation>
    </message>
    <message>
        <source>Barrel out</source>
        <translation>Salida evap.</translation>
    </message>
    <message>
        <source>Bore</source>
        <translation>Diámetro</translation>
    </message>
    <message>
        <source>Bypass</source>
        <translation>Baipás</translation>
    </message>
    <message>
        <source>Coldest</source>
        <translation>Más frío</translation>
    </message>
    <message>
        <source>Cooling down</source>
        <translation>Enfriamiento</translation>
    </message>
    <message>
        <source>Discharge valve shut</source>
        <translation>Válvula de descarga cerrada</translation>
    </message>
    <message>
        <source>Drop</source>
        <translation>Caída</translation>
    </message>
    <message>
        <source>Flow</source>
        <translation>Caudal</translation>
    </message>
    <message>
        <source>Flow switch</source>
        <translation>Int. de flujo</translation>
    </message>
    <message>
        <source>Glycol</source>
        <translation>Glicol</translation>
    </message>
    <message>
        <source>Heat in</source>
        <translation>Calor</translation>
    </message>
    <message>
        <source>Highest</source>
        <translation>Más alto</translation>
    </message>
    <message>
        <source>Highest pipe</source>
        <translation>Tubo más alto</translation>
    </message>
    <message>
        <source>Hose</source>
        <translation>Manguera</translation>
    </message>
    <message>
        <source>Leaving load</source>
        <translation>Sale de la carga</translation>
    </message>
    <message>
        <source>Lowest</source>
        <translation>Más bajo</translation>
    </message>
    <message>
        <source>Needle of the drop, swinging</source>
        <translation>Aguja de la caída, oscilando</translation>
    </message>
    <message>
        <source>Pump in</source>
        <translation>Entrada bomba</translation>
    </message>
    <message>
        <source>Pump out</source>
        <translation>Salida bomba</translation>
    </message>
    <message>
        <source>Return valve</source>
        <translation>Válv. de retorno</translation>
    </message>
    <message>
        <source>Sample of water</source>
        <translation>Muestra de agua</translation>
    </message>
    <message>
        <source>Spec. gravity</source>
        <translation>Densidad</translation>
    </message>
    <message>
        <source>Standing, pump off</source>
        <translation>Reposo, bomba parada</translation>
    </message>
    <message>
        <source>Strainer</source>
        <translation>Filtro</translation>
    </message>
    <message>
        <source>Strainer drop</source>
        <translation>Caída del filtro</translation>
    </message>
    <message>
        <source>Supply valve</source>
        <translation>Válvula de ida</translation>
    </message>
    <message>
        <source>Tanks</source>
        <translation>Tanques</translation>
    </message>
    <message>
        <source>The load</source>
        <translation>La carga</translation>
    </message>
    <message>
        <source>The loop</source>
        <translation>El circuito</translation>
    </message>
    <message>
        <source>The unit</source>
        <translation>La unidad</translation>
    </message>
    <message>
        <source>Turning</source>
        <translation>Giro</translation>
    </message>
    <message>
        <source>Warm water comes from the load over the highest pipe through return valve, strainer and pump into the barrel, and goes back cold through the supply valve; a bypass joins supply and return.</source>
        <translation>El agua tibia viene de la carga por el tubo más alto, por válvula de retorno, filtro y bomba al evaporador, y vuelve fría por la válvula de ida; un baipás une ida y retorno.</translation>
    </message>
    <message>
        <source>Water in</source>
        <translation>Entra agua</translation>
    </message>
    <message>
        <source>Water out</source>
        <translation>Sale agua</translation>
    </message>
    <message>
        <source>Water side</source>
        <translation>Lado de agua</translation>
    </message>
    <message>
        <source>Air at the rating</source>
        <translation>Aire en la condición nominal</translation>
    </message>
    <message>
        <source>Antifreeze</source>
        <translation>Anticongelante</translation>
    </message>
    <message>
        <source>Bore of the water connections</source>
        <translation>Diámetro de las conexiones de agua</translation>
    </message>
    <message>
        <source>Design water flow</source>
        <translation>Caudal de agua de diseño</translation>
    </message>
    <message>
        <source>Drop across the barrel</source>
        <translation>Caída en el evaporador</translation>
    </message>
    <message>
        <source>Entering water at the rating</source>
        <translation>Agua de entrada en la condición nominal</translation>
    </message>
    <message>
        <source>Fans and pump</source>
        <translation>Ventiladores y bomba</translation>
    </message>
    <message>
        <source>Flow proving</source>
        <translation>Comprobación de caudal</translation>
    </message>
    <message>
        <source>From the plate, the papers or the site. Leave out what nobody knows.</source>
        <translation>De la placa, los papeles o el sitio. Deje vacío lo que nadie sabe.</translation>
    </message>
    <message>
        <source>From the same plate.</source>
        <translation>De la misma placa.</translation>
    </message>
    <message>
        <source>From the same plate; count them on the unit if it does not say.</source>
        <translation>De la misma placa; cuéntelos en la unidad si no lo dice.</translation>
    </message>
    <message>
        <source>From the unit's own nameplate, on the frame or the panel door.</source>
        <translation>De la propia placa de la unidad, en el bastidor o en la puerta del tablero.</translation>
    </message>
    <message>
        <source>Full scale of the water gauges</source>
        <translation>Fondo de escala de los manómetros de agua</translation>
    </message>
    <message>
        <source>Kind of compressor</source>
        <translation>Tipo de compresor</translation>
    </message>
    <message>
        <source>Leaving water at the rating</source>
        <translation>Agua de salida en la condición nominal</translation>
    </message>
    <message>
        <source>Lowest leaving water without antifreeze</source>
        <translation>Agua de salida más baja sin anticongelante</translation>
    </message>
    <message>
        <source>Minimum water flow</source>
        <translation>Caudal mínimo de agua</translation>
    </message>
    <message>
        <source>Motors often have plates of their own. Read them from where you may stand; open no guard for it.</source>
        <translation>Los motores suelen tener placa propia. Léala desde donde pueda estar; no abra ninguna guarda para eso.</translation>
    </message>
    <message>
        <source>Name and refrigerant</source>
        <translation>Nombre y refrigerante</translation>
    </message>
    <message>
        <source>Not known</source>
        <translation>No se sabe</translation>
    </message>
    <message>
        <source>Number of compressors</source>
        <translation>Número de compresores</translation>
    </message>
    <message>
        <source>Oil warm-up</source>
        <translation>Calentamiento del aceite</translation>
    </message>
    <message>
        <source>Pump curve</source>
        <translation>Curva de la bomba</translation>
    </message>
    <message>
        <source>Rated current of the compressors</source>
        <translation>Corriente nominal de los compresores</translation>
    </message>
    <message>
        <source>Rated current of the pump</source>
        <translation>Corriente nominal de la bomba</translation>
    </message>
    <message>
        <source>Rated power of the pump</source>
        <translation>Potencia nominal de la bomba</translation>
    </message>
    <message>
        <source>Refrigerant circuits</source>
        <translation>Circuitos de refrigerante</translation>
    </message>
    <message>
        <source>Relief valve, water side</source>
        <translation>Válvula de alivio, lado de agua</translation>
    </message>
    <message>
        <source>Tolerance of the voltage</source>
        <translation>Tolerancia de la tensión</translation>
    </message>
    <message>
        <source>Wait from a stop to the next start</source>
        <translation>Espera de una parada al arranque siguiente</translation>
    </message>
    <message>
        <source>Water in unit and pipes</source>
        <translation>Agua en unidad y tubos</translation>
    </message>
    <message>
        <source>What the unit has</source>
        <translation>Lo que tiene la unidad</translation>
    </message>
    <message>
        <source>kept as {unit_id}</source>
        <translation>guardada como {unit_id}</translation>
    </message>
    <message>
        <source>needed, unless '{other}' is given</source>
        <translation>hace falta, salvo que se dé '{other}'</translation>
    </message>
    <message>
        <source>not one that FaultDoc knows; kept as typed</source>
        <translation>no es uno que FaultDoc conozca; se guarda como se escribió</translation>
    </message>
    <message>
        <source>understood as {canonical}</source>
        <translation>entendido como {canonical}</translation>
    </message>
    <message>
        <source>understood as {each}</source>
        <translation>entendido como {each}</translation>
    </message>
    <message>
        <source>understood as {in_both}</source>
        <translation>entendido como {in_both}</translation>
    </message>
    <message>
        <source>understood as {len}: {join}</source>
        <translation>entendido como {len}: {join}</translation>
    </message>
    <message>
        <source>understood as {value}</source>
        <translation>entendido como {value}</translation>
    </message>
    <message>
        <source>Charge of one circuit</source>
        <translation>Carga de un circuito</translation>
    </message>
    <message>
        <source>Condenser fans</source>
        <translation>Ventiladores del condensador</translation>
    </message>
    <message>
        <source>Customer</source>
        <translation>Cliente</translation>
    </message>
    <message>
        <source>Done again: </source>
        <translation>Hecho de nuevo: </translation>
    </message>
    <message>
        <source>Done, with its proof still to be taken: {lower}.</source>
        <translation>Hecho, con su prueba todavía por tomar: {lower}.</translation>
    </message>
    <message>
        <source>Done: {lower}, {held}.</source>
        <translation>Hecho: {lower}, {held}.</translation>
    </message>
    <message>
        <source>How likely each cause was after each step.</source>
        <translation>Cuán probable era cada causa después de cada paso.</translation>
    </message>
    <message>
        <source>Left for later, and not answered</source>
        <translation>Dejado para después, y no respondido</translation>
    </message>
    <message>
        <source>Likely causes as bars</source>
        <translation>Causas probables en barras</translation>
    </message>
    <message>
        <source>Maximum protection</source>
        <translation>Protección máxima</translation>
    </message>
    <message>
        <source>Minimum circuit ampacity</source>
        <translation>Ampacidad mínima del circuito</translation>
    </message>
    <message>
        <source>No</source>
        <translation>0</translation>
    </message>
    <message>
        <source>On site</source>
        <translation>En el sitio</translation>
    </message>
    <message>
        <source>Outcome</source>
        <translation>Resultado</translation>
    </message>
    <message>
        <source>Service desk</source>
        <translation>Mesa de servicio</translation>
    </message>
    <message>
        <source>Taken back: </source>
        <translation>Retirado: </translation>
    </message>
    <message>
        <source>Technician</source>
        <translation>Técnico</translation>
    </message>
    <message>
        <source>The black part of a bar is the probability.</source>
        <translation>La parte negra de una barra es la probabilidad.</translation>
    </message>
    <message>
        <source>The case is not closed. The most likely cause so far is: {lower} ({chance}). Next: {lower_2}</source>
        <translation>El caso no está cerrado. La causa más probable hasta ahora es: {lower} ({chance}). Sigue: {lower_2}</translation>
    </message>
    <message>
        <source>The cause was: {lower}.</source>
        <translation>La causa era: {lower}.</translation>
    </message>
    <message>
        <source>The most likely cause is: {lower} ({chance}).</source>
        <translation>La causa más probable es: {lower} ({chance}).</translation>
    </message>
    <message>
        <source>The symptom alone</source>
        <translation>Solo el síntoma</translation>
    </message>
    <message>
        <source>and the proof held</source>
        <translation>y la prueba se cumplió</translation>
    </message>
    <message>
        <source>as given</source>
        <translation>como se dio</translation>
    </message>
    <message>
        <source>at least </source>
        <translation>al menos </translation>
    </message>
    <message>
        <source>at most </source>
        <translation>como máximo </translation>
    </message>
    <message>
        <source>beyond 100</source>
        <translation>más de 100</translation>
    </message>
    <message>
        <source>but the proof did not hold</source>
        <translation>pero la prueba no se cumplió</translation>
    </message>
    <message>
        <source>from the data sheet</source>
        <translation>de la hoja de datos</translation>
    </message>
    <message>
        <source>{clock} to {clock_2}</source>
        <translation>{clock} a {clock_2}</translation>
    </message>
    <message>
        <source>{number} x {kind}, rated {show}</source>
        <translation>{number} x {kind}, nominal {show}</translation>
    </message>
    <message>
        <source>{readings} and {lower} were taken.</source>
        <translation>Se tomaron {readings} y {lower}.</translation>
    </message>
    <message>
        <source>{title} was looked at for {what}.</source>
        <translation>Se revisó {title} por {what}.</translation>
    </message>
    <message>
        <source>{words} (assumed)</source>
        <translation>{words} (supuesto)</translation>
    </message>
    <message>
        <source>a logger's table of readings</source>
        <translation>la tabla de lecturas de un registrador</translation>
    </message>
    <message>
        <source>one of: {join}</source>
        <translation>una de: {join}</translation>
    </message>
    <message>
        <source>understood as {title}</source>
        <translation>entendido como {title}</translation>
    </message>
    <message>
        <source>A remedy waits for its proof. Take the proof first.</source>
        <translation>Un remedio espera su prueba. Tome primero la prueba.</translation>
    </message>
    <message>
        <source>An answer has ended the work. Once someone qualified has made it safe, change that answer first.</source>
        <translation>Una respuesta terminó el trabajo. Cuando alguien calificado la haya puesto en seguridad, cambie primero esa respuesta.</translation>
    </message>
    <message>
        <source>Needs: {lower}.</source>
        <translation>Hace falta: {lower}.</translation>
    </message>
    <message>
        <source>Nobody here may bring the plant into the state it needs.</source>
        <translation>Nadie aquí puede llevar la instalación al estado que necesita.</translation>
    </message>
    <message>
        <source>The case is closed. Open it again first.</source>
        <translation>El caso está cerrado. Ábralo otra vez primero.</translation>
    </message>
    <message>
        <source>The plant is not in the state this starts from.</source>
        <translation>La instalación no está en el estado del que esto parte.</translation>
    </message>
    <message>
        <source>This remedy has been tried.</source>
        <translation>Este remedio ya se intentó.</translation>
    </message>
    <message>
        <source>proof to take</source>
        <translation>prueba por tomar</translation>
    </message>
    <message>
        <source>stopped: danger</source>
        <translation>detenido: peligro</translation>
    </message>
    <message>
        <source>wait before a start</source>
        <translation>espera antes de un arranque</translation>
    </message>
    <message>
        <source>, compressor {number}</source>
        <translation>, compresor {number}</translation>
    </message>
    <message>
        <source>. Yet the plant's state says that the oil is warm: put right what is not so</source>
        <translation>. Sin embargo, el estado de la instalación dice que el aceite está tibio: corrija lo que no es así</translation>
    </message>
    <message>
        <source>: no other start in this hour</source>
        <translation>: ningún otro arranque en esta hora</translation>
    </message>
    <message>
        <source>Anti-recycle{which}</source>
        <translation>Tiempo entre arranques{which}</translation>
    </message>
    <message>
        <source>Any break in power, however short, starts it again.</source>
        <translation>Cualquier corte de energía, por corto que sea, la reinicia.</translation>
    </message>
    <message>
        <source>Every stop of the compressor starts it again; a break in power is a stop too.</source>
        <translation>Cada parada del compresor la reinicia; un corte de energía también es una parada.</translation>
    </message>
    <message>
        <source>Starts in the last hour{which}</source>
        <translation>Arranques en la última hora{which}</translation>
    </message>
    <message>
        <source>over: {of} have passed</source>
        <translation>terminada: pasaron {of}</translation>
    </message>
    <message>
        <source>the supply is off: {show} from when it comes back</source>
        <translation>la alimentación está cortada: {show} desde que vuelva</translation>
    </message>
    <message>
        <source>{counted} of at most {allowed}</source>
        <translation>{counted} de {allowed} como máximo</translation>
    </message>
    <message>
        <source>{counted}; the data sheet gives no limit</source>
        <translation>{counted}; la hoja de datos no da límite</translation>
    </message>
    <message>
        <source>{show} left of {of}</source>
        <translation>quedan {show} de {of}</translation>
    </message>
    <message>
        <source>1 min</source>
        <translation>1 min</translation>
    </message>
    <message>
        <source>A technician who may isolate the supply and measure at or near live parts.</source>
        <translation>Un técnico que puede desconectar la alimentación y medir en partes con tensión o cerca de ellas.</translation>
    </message>
    <message>
        <source>A technician with the licence to open the refrigerant circuit.</source>
        <translation>Un técnico con licencia para abrir el circuito de refrigerante.</translation>
    </message>
    <message>
        <source>Anyone, a caller on the phone included</source>
        <translation>Cualquiera, también quien llama por teléfono</translation>
    </message>
    <message>
        <source>Are all doors and covers of the unit shut?</source>
        <translation>¿Están cerradas todas las puertas y tapas de la unidad?</translation>
    </message>
    <message>
        <source>Are the water hoses or pipes on, or has anybody taken one off or shut them?</source>
        <translation>¿Están puestas las mangueras o tubos de agua, o alguien quitó alguno o los cerró?</translation>
    </message>
    <message>
        <source>CAUTION</source>
        <translation>PRECAUCIÓN</translation>
    </message>
    <message>
        <source>Chilled-water pump</source>
        <translation>Bomba de agua fría</translation>
    </message>
    <message>
        <source>Chilled-water side</source>
        <translation>Lado de agua fría</translation>
    </message>
    <message>
        <source>Cold, or not known</source>
        <translation>Frío, o no se sabe</translation>
    </message>
    <message>
        <source>Compressor oil</source>
        <translation>Aceite del compresor</translation>
    </message>
    <message>
        <source>Compressors cannot run with the refrigerant circuit open. Set them to stopped.</source>
        <translation>Los compresores no pueden funcionar con el circuito de refrigerante abierto. Póngalos en parados.</translation>
    </message>
    <message>
        <source>Compressors cannot run with the supply locked out. Set them to stopped, or the supply to on.</source>
        <translation>Los compresores no pueden funcionar con la alimentación bloqueada. Póngalos en parados, o la alimentación en conectada.</translation>
    </message>
    <message>
        <source>Compressors cannot run without the pump. Set the pump to running, or the compressors to stopped.</source>
        <translation>Los compresores no pueden funcionar sin la bomba. Ponga la bomba en marcha, o los compresores en parados.</translation>
    </message>
    <message>
        <source>Compressors that run have warm oil. Set the oil to warm, or the compressors to stopped.</source>
        <translation>Los compresores en marcha tienen el aceite tibio. Ponga el aceite en tibio, o los compresores en parados.</translation>
    </message>
    <message>
        <source>Could not be measured</source>
        <translation>No se pudo medir</translation>
    </message>
    <message>
        <source>DANGER</source>
        <translation>PELIGRO</translation>
    </message>
    <message>
        <source>Does anybody have its refrigerant pipes open for work?</source>
        <translation>¿Alguien tiene abiertos sus tubos de refrigerante para trabajar?</translation>
    </message>
    <message>
        <source>Does its water pump run just now?</source>
        <translation>¿Funciona ahora mismo su bomba de agua?</translation>
    </message>
    <message>
        <source>Does the unit itself run just now, or does it stand?</source>
        <translation>¿Funciona ahora mismo la unidad, o está parada?</translation>
    </message>
    <message>
        <source>Electrical panels</source>
        <translation>Tableros eléctricos</translation>
    </message>
    <message>
        <source>Electrical supply</source>
        <translation>Alimentación eléctrica</translation>
    </message>
    <message>
        <source>Filled, under pressure</source>
        <translation>Lleno, a presión</translation>
    </message>
    <message>
        <source>Fixed</source>
        <translation>Arreglado</translation>
    </message>
    <message>
        <source>Handed over</source>
        <translation>Entregado</translation>
    </message>
    <message>
        <source>Has it had power since yesterday, without a break?</source>
        <translation>¿Ha tenido energía desde ayer, sin interrupción?</translation>
    </message>
    <message>
        <source>Is anything lit on the unit, a lamp or its display?</source>
        <translation>¿Hay algo encendido en la unidad, una lámpara o su pantalla?</translation>
    </message>
    <message>
        <source>Licensed refrigerant handler</source>
        <translation>Técnico autorizado en refrigerantes</translation>
    </message>
    <message>
        <source>Locked out, proved dead</source>
        <translation>Bloqueada, comprobada sin tensión</translation>
    </message>
    <message>
        <source>Looks, listens and switches the unit on or off at its own control; opens and touches nothing else.</source>
        <translation>Mira, escucha y enciende o apaga la unidad con su propio mando; no abre ni toca nada más.</translation>
    </message>
    <message>
        <source>Made safe</source>
        <translation>Puesta en seguridad</translation>
    </message>
    <message>
        <source>Mechanical service with own gauges and meters; electrical panels only when proved dead.</source>
        <translation>Servicio mecánico con manómetros y medidores propios; tableros eléctricos solo comprobados sin tensión.</translation>
    </message>
    <message>
        <source>NOTICE</source>
        <translation>AVISO</translation>
    </message>
    <message>
        <source>Not found</source>
        <translation>No encontrada</translation>
    </message>
    <message>
        <source>On (energised)</source>
        <translation>Conectada (con energía)</translation>
    </message>
    <message>
        <source>Open</source>
        <translation>Abierto</translation>
    </message>
    <message>
        <source>Opened for work</source>
        <translation>Abierto para trabajar</translation>
    </message>
    <message>
        <source>Qualified electrical worker</source>
        <translation>Trabajador eléctrico calificado</translation>
    </message>
    <message>
        <source>Refrigerant circuit</source>
        <translation>Circuito de refrigerante</translation>
    </message>
    <message>
        <source>Running</source>
        <translation>En marcha</translation>
    </message>
    <message>
        <source>Service technician</source>
        <translation>Técnico de servicio</translation>
    </message>
    <message>
        <source>Sets units up: valves, hoses, vents and fixed gauges. Opens no electrical panel.</source>
        <translation>Instala unidades: válvulas, mangueras, purgas y manómetros fijos. No abre ningún tablero eléctrico.</translation>
    </message>
    <message>
        <source>Shut</source>
        <translation>Cerrado</translation>
    </message>
    <message>
        <source>Shut off, let down to zero</source>
        <translation>Cerrado, presión bajada a cero</translation>
    </message>
    <message>
        <source>Site crew</source>
        <translation>Cuadrilla del sitio</translation>
    </message>
    <message>
        <source>Someone else goes on, with this record.</source>
        <translation>Sigue otra persona, con este registro.</translation>
    </message>
    <message>
        <source>Stopped</source>
        <translation>Parado</translation>
    </message>
    <message>
        <source>The cause was put right and the proof held.</source>
        <translation>La causa se corrigió y la prueba se cumplió.</translation>
    </message>
    <message>
        <source>The pump cannot run with the supply locked out. Set the pump to stopped, or the supply to on.</source>
        <translation>La bomba no puede funcionar con la alimentación bloqueada. Ponga la bomba en parada, o la alimentación en conectada.</translation>
    </message>
    <message>
        <source>The pump must not run on an empty water side. Set the pump to stopped, or the water side to filled.</source>
        <translation>La bomba no debe funcionar con el lado de agua vacío. Ponga la bomba en parada, o el lado de agua en lleno.</translation>
    </message>
    <message>
        <source>The unit runs or is out of use, and the cause was not found.</source>
        <translation>La unidad funciona o está fuera de uso, y la causa no se encontró.</translation>
    </message>
    <message>
        <source>The unit stays off and cannot hurt anyone; work goes on later.</source>
        <translation>La unidad queda parada y no puede herir a nadie; el trabajo sigue después.</translation>
    </message>
    <message>
        <source>WARNING</source>
        <translation>ADVERTENCIA</translation>
    </message>
    <message>
        <source>Warm (heaters on long enough)</source>
        <translation>Tibio (calefactores encendidos lo suficiente)</translation>
    </message>
    <message>
        <source>answer</source>
        <translation>respuesta</translation>
    </message>
    <message>
        <source>answers</source>
        <translation>respuestas</translation>
    </message>
    <message>
        <source>move</source>
        <translation>movimiento</translation>
    </message>
    <message>
        <source>moves</source>
        <translation>movimientos</translation>
    </message>
    <message>
        <source>note</source>
        <translation>nota</translation>
    </message>
    <message>
        <source>notes</source>
        <translation>notas</translation>
    </message>
    <message>
        <source>over 99 %</source>
        <translation>más de 99 %</translation>
    </message>
    <message>
        <source>people</source>
        <translation>personas</translation>
    </message>
    <message>
        <source>person</source>
        <translation>persona</translation>
    </message>
    <message>
        <source>photo</source>
        <translation>foto</translation>
    </message>
    <message>
        <source>photos</source>
        <translation>fotos</translation>
    </message>
    <message>
        <source>reading</source>
        <translation>lectura</translation>
    </message>
    <message>
        <source>readings</source>
        <translation>lecturas</translation>
    </message>
    <message>
        <source>A signature says that this page was received, not that anything in it was tested by whoever signs. The full service record is kept by the service firm.</source>
        <translation>Una firma dice que esta página se recibió, no que quien firma haya probado algo de ella. El registro completo lo guarda la empresa de servicio.</translation>
    </message>
    <message>
        <source>For the customer. Made</source>
        <translation>Para el cliente. Hecho el</translation>
    </message>
    <message>
        <source>In plain words</source>
        <translation>En palabras sencillas</translation>
    </message>
    <message>
        <source>Parts that this work may take</source>
        <translation>Repuestos que este trabajo puede necesitar</translation>
    </message>
    <message>
        <source>Signatures</source>
        <translation>Firmas</translation>
    </message>
    <message>
        <source>. Made</source>
        <translation>. Hecho el</translation>
    </message>
    <message>
        <source>Chance of a fix on the first visit:</source>
        <translation>Probabilidad de arreglo en la primera visita:</translation>
    </message>
    <message>
        <source>For:</source>
        <translation>Para:</translation>
    </message>
    <message>
        <source>Match:</source>
        <translation>Debe coincidir:</translation>
    </message>
    <message>
        <source>Nobody: those who are there can do it.</source>
        <translation>Nadie: lo pueden hacer quienes están ahí.</translation>
    </message>
    <message>
        <source>Nothing beyond what is on every van.</source>
        <translation>Nada además de lo que lleva toda camioneta.</translation>
    </message>
    <message>
        <source>Send</source>
        <translation>Enviar</translation>
    </message>
    <message>
        <source>Take</source>
        <translation>Llevar</translation>
    </message>
    <message>
        <source>This is over the</source>
        <translation>Esto pasa de</translation>
    </message>
    <message>
        <source>Together</source>
        <translation>Juntos</translation>
    </message>
    <message>
        <source>What to send:</source>
        <translation>Qué enviar:</translation>
    </message>
    <message>
        <source>by FaultDoc</source>
        <translation>por FaultDoc</translation>
    </message>
    <message>
        <source>Date</source>
        <translation>Fecha</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Nombre</translation>
    </message>
    <message>
        <source>Signature</source>
        <translation>Firma</translation>
    </message>
    <message>
        <source>Signed</source>
        <translation>Firma</translation>
    </message>
    <message>
        <source>), level</source>
        <translation>), nivel</translation>
    </message>
    <message>
        <source>, without solving it</source>
        <translation>, sin resolverlo</translation>
    </message>
    <message>
        <source>. No real unit was worked on.</source>
        <translation>. No se trabajó en ninguna unidad real.</translation>
    </message>
    <message>
        <source>; par</source>
        <translation>; par</translation>
    </message>
    <message>
        <source>; the planner on the same unit</source>
        <translation>; el planificador en la misma unidad</translation>
    </message>
    <message>
        <source>Bits</source>
        <translation>Bits</translation>
    </message>
    <message>
        <source>Bits: how much it could be expected to tell before it was taken.</source>
        <translation>Bits: cuánto se podía esperar que dijera antes de tomarla.</translation>
    </message>
    <message>
        <source>How it ended</source>
        <translation>Cómo terminó</translation>
    </message>
    <message>
        <source>In short</source>
        <translation>En breve</translation>
    </message>
    <message>
        <source>It teaches</source>
        <translation>Enseña</translation>
    </message>
    <message>
        <source>It told nothing.</source>
        <translation>No dijo nada.</translation>
    </message>
    <message>
        <source>None.</source>
        <translation>Ninguno.</translation>
    </message>
    <message>
        <source>Nothing was done.</source>
        <translation>No se hizo nada.</translation>
    </message>
    <message>
        <source>Nothing was read.</source>
        <translation>No se leyó nada.</translation>
    </message>
    <message>
        <source>Practice helps people to become qualified; it qualifies nobody. Local codes, the maker's manual and the site's rules come first.</source>
        <translation>La práctica ayuda a calificarse; no califica a nadie. Los códigos locales, el manual del fabricante y las reglas del sitio van primero.</translation>
    </message>
    <message>
        <source>Practice on a simulated unit, made</source>
        <translation>Práctica en una unidad simulada, hecha el</translation>
    </message>
    <message>
        <source>Result sheet:</source>
        <translation>Hoja de resultado:</translation>
    </message>
    <message>
        <source>Scenario</source>
        <translation>Escenario</translation>
    </message>
    <message>
        <source>Score</source>
        <translation>Puntaje</translation>
    </message>
    <message>
        <source>The planner's path on the same unit</source>
        <translation>El camino del planificador en la misma unidad</translation>
    </message>
    <message>
        <source>The trainee's path</source>
        <translation>El camino del aprendiz</translation>
    </message>
    <message>
        <source>Trainee</source>
        <translation>Aprendiz</translation>
    </message>
    <message>
        <source>Unsafe acts, each refused</source>
        <translation>Actos inseguros, cada uno rechazado</translation>
    </message>
    <message>
        <source>What it meant</source>
        <translation>Qué significaba</translation>
    </message>
    <message>
        <source>What it was</source>
        <translation>Qué era</translation>
    </message>
    <message>
        <source>of 100</source>
        <translation>de 100</translation>
    </message>
    <message>
        <source>(on the way to</source>
        <translation>(en camino a</translation>
    </message>
    <message>
        <source>, itself &amp;plusmn;</source>
        <translation>, a su vez &amp;plusmn;</translation>
    </message>
    <message>
        <source>. Proof:</source>
        <translation>. Prueba:</translation>
    </message>
    <message>
        <source>. Source:</source>
        <translation>. Fuente:</translation>
    </message>
    <message>
        <source>. The most likely cause is:</source>
        <translation>. La causa más probable es:</translation>
    </message>
    <message>
        <source>. Times are</source>
        <translation>. Horas en</translation>
    </message>
    <message>
        <source>Also kept with the case, and not printed:</source>
        <translation>También guardado con el caso, y no impreso:</translation>
    </message>
    <message>
        <source>Answer</source>
        <translation>Respuesta</translation>
    </message>
    <message>
        <source>As taken</source>
        <translation>Como se tomó</translation>
    </message>
    <message>
        <source>Back into service</source>
        <translation>De vuelta en servicio</translation>
    </message>
    <message>
        <source>Cause, remedy and proof</source>
        <translation>Causa, remedio y prueba</translation>
    </message>
    <message>
        <source>Caution</source>
        <translation>Advertencia</translation>
    </message>
    <message>
        <source>Cautions that went with the work</source>
        <translation>Advertencias que acompañaron el trabajo</translation>
    </message>
    <message>
        <source>Check</source>
        <translation>Comprobación</translation>
    </message>
    <message>
        <source>Counted once:</source>
        <translation>Contado una vez:</translation>
    </message>
    <message>
        <source>Decibans</source>
        <translation>Decibanes</translation>
    </message>
    <message>
        <source>Details</source>
        <translation>Detalles</translation>
    </message>
    <message>
        <source>Done since the remedy:</source>
        <translation>Hecho desde el remedio:</translation>
    </message>
    <message>
        <source>Done, proof still to be taken:</source>
        <translation>Hecho, prueba todavía por tomar:</translation>
    </message>
    <message>
        <source>For the customer, in plain words</source>
        <translation>Para el cliente, en palabras sencillas</translation>
    </message>
    <message>
        <source>From, to</source>
        <translation>Desde, hasta</translation>
    </message>
    <message>
        <source>How the belief moved</source>
        <translation>Cómo cambió la probabilidad</translation>
    </message>
    <message>
        <source>In doubt:</source>
        <translation>En duda:</translation>
    </message>
    <message>
        <source>In units of</source>
        <translation>En unidades</translation>
    </message>
    <message>
        <source>In words</source>
        <translation>En palabras</translation>
    </message>
    <message>
        <source>Likely causes at the end</source>
        <translation>Causas probables al final</translation>
    </message>
    <message>
        <source>Limits of error</source>
        <translation>Límites de error</translation>
    </message>
    <message>
        <source>Limits of error: as given with the reading, or the usual instrument's at this place.</source>
        <translation>Límites de error: como se dieron con la lectura, o los del instrumento habitual en este lugar.</translation>
    </message>
    <message>
        <source>More than</source>
        <translation>Más de</translation>
    </message>
    <message>
        <source>Next:</source>
        <translation>Sigue:</translation>
    </message>
    <message>
        <source>No remedy was proved</source>
        <translation>No se comprobó ningún remedio</translation>
    </message>
    <message>
        <source>No.</source>
        <translation>N.º</translation>
    </message>
    <message>
        <source>Nobody on this job may bring the unit back into service from the state it is in. Leave it off, and hand it over.</source>
        <translation>Nadie en este trabajo puede volver la unidad a servicio desde el estado en que está. Déjela apagada y entréguela.</translation>
    </message>
    <message>
        <source>None could be made from these readings.</source>
        <translation>No se pudo hacer ninguna con estas lecturas.</translation>
    </message>
    <message>
        <source>None of the steps done carries one.</source>
        <translation>Ninguno de los pasos hechos lleva una.</translation>
    </message>
    <message>
        <source>Not closed.</source>
        <translation>Sin cerrar.</translation>
    </message>
    <message>
        <source>Nothing that is known here.</source>
        <translation>Nada que se conozca aquí.</translation>
    </message>
    <message>
        <source>Off by</source>
        <translation>Diferencia</translation>
    </message>
    <message>
        <source>Oil warm-up of this unit:</source>
        <translation>Calentamiento del aceite de esta unidad:</translation>
    </message>
    <message>
        <source>On the job</source>
        <translation>En el trabajo</translation>
    </message>
    <message>
        <source>Parts it may take</source>
        <translation>Repuestos que puede necesitar</translation>
    </message>
    <message>
        <source>Photos</source>
        <translation>Fotos</translation>
    </message>
    <message>
        <source>Proof asked for</source>
        <translation>Prueba pedida</translation>
    </message>
    <message>
        <source>Quantity</source>
        <translation>Cantidad</translation>
    </message>
    <message>
        <source>Readings and answers that did not fit</source>
        <translation>Lecturas y respuestas que no encajaron</translation>
    </message>
    <message>
        <source>Service record made</source>
        <translation>Registro de servicio hecho el</translation>
    </message>
    <message>
        <source>Signal word</source>
        <translation>Palabra de señal</translation>
    </message>
    <message>
        <source>Station</source>
        <translation>Puesto</translation>
    </message>
    <message>
        <source>Still to do from the state recorded below, in this order:</source>
        <translation>Falta hacer, desde el estado registrado abajo, en este orden:</translation>
    </message>
    <message>
        <source>Ten decibans are ten to one. They add up.</source>
        <translation>Diez decibanes son diez a uno. Se suman.</translation>
    </message>
    <message>
        <source>The arithmetic of the checks</source>
        <translation>El cálculo de las comprobaciones</translation>
    </message>
    <message>
        <source>The deviation counts standard uncertainties; each &amp;plusmn; is two of them, about 95 %. A verdict is given beyond that. The arithmetic of every check stands in the details.</source>
        <translation>La desviación cuenta incertidumbres estándar; cada &amp;plusmn; son dos de ellas, cerca del 95 %. Más allá se da un veredicto. El cálculo de cada comprobación está en los detalles.</translation>
    </message>
    <message>
        <source>The job</source>
        <translation>El trabajo</translation>
    </message>
    <message>
        <source>The plant as recorded last</source>
        <translation>La instalación como se registró por última vez</translation>
    </message>
    <message>
        <source>The unit is running; nothing is left to do for the restart.</source>
        <translation>La unidad funciona; no queda nada por hacer para el arranque.</translation>
    </message>
    <message>
        <source>This record helps a qualified person; it does not replace local codes, the maker's manual or the site's rules.</source>
        <translation>Este registro ayuda a una persona calificada; no reemplaza los códigos locales, el manual del fabricante ni las reglas del sitio.</translation>
    </message>
    <message>
        <source>This report was made without a journal.</source>
        <translation>Este informe se hizo sin diario.</translation>
    </message>
    <message>
        <source>To bring</source>
        <translation>Para llevar</translation>
    </message>
    <message>
        <source>Understood,</source>
        <translation>Entendido,</translation>
    </message>
    <message>
        <source>Value</source>
        <translation>Valor</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Veredicto</translation>
    </message>
    <message>
        <source>What is not ruled out</source>
        <translation>Lo que no está descartado</translation>
    </message>
    <message>
        <source>What spoke for and against:</source>
        <translation>Lo que habló a favor y en contra:</translation>
    </message>
    <message>
        <source>What was done, in order</source>
        <translation>Lo que se hizo, en orden</translation>
    </message>
    <message>
        <source>What was found</source>
        <translation>Lo que se encontró</translation>
    </message>
    <message>
        <source>When</source>
        <translation>Cuándo</translation>
    </message>
    <message>
        <source>at most.</source>
        <translation>como máximo.</translation>
    </message>
    <message>
        <source>faults at once, which were not looked at:</source>
        <translation>fallas a la vez, que no se miraron:</translation>
    </message>
    <message>
        <source>with its supply on, from the start again after every break.</source>
        <translation>con la alimentación conectada, desde cero después de cada corte.</translation>
    </message>
    <message>
        <source>yet</source>
        <translation>todavía</translation>
    </message>
    <message>
        <source>air</source>
        <translation>aire</translation>
    </message>
    <message>
        <source>water</source>
        <translation>agua</translation>
    </message>
    <message>
        <source>refrigerant</source>
        <translation>refrigerante</translation>
    </message>
    <message>
        <source>Read the cautions and tick that you have: in the story nobody passes them over either.</source>
        <translation>Lea las advertencias y marque que lo hizo: en la historia tampoco nadie las pasa por alto.</translation>
    </message>
</context>
</TS>
