/** What a lamp's maker gives out: IES LM-63 and EULUMDAT. */
export const LAMP_FILES = '.ies,.ldt'
export const IES = /\.ies$/i
export const isLampFile = (name: string): boolean => IES.test(name) || /\.ldt$/i.test(name)
